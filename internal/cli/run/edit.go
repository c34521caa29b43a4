package run

import (
	"errors"
	"fmt"

	"brineyard/internal/fault"
	"brineyard/internal/words"
	"brineyard/internal/yard"
	"brineyard/internal/yard/file"
)

// Setting is a key of the yard file with the text that is to stand behind its equals sign.
type Setting = file.Setting

// EditYard sets keys of a table of the yard file in force, the index-th of a list, with its comments kept. It is
// written when the edited file reads as it should: right tells that of what is read from it. Flag names
// who asked.
func (s *Session) EditYard(flag, table string, index int, settings []Setting, right func(*yard.Yard) bool) error {
	path := s.Yard.Path
	refuse := func(err error) error { return fault.Refuse("%s: %s: %v", flag, words.Quoted(path), err) }
	was, err := s.Env.Read(path)
	if err != nil {
		return refuse(errors.New(Reason(err)))
	}
	text, err := file.Edit(string(was), table, index, settings)
	if err != nil {
		return refuse(err)
	}
	now, err := file.Parse(path, []byte(text))
	if err != nil || !right(now) {
		return refuse(fmt.Errorf("the keys cannot be set there without changing what else it says; nothing was written; allowed: written in by hand"))
	}
	if err := s.Env.Replace(path, was, []byte(text)); err != nil {
		return fmt.Errorf("%s: %s: %s", flag, words.Quoted(path), Reason(err))
	}
	return nil
}
