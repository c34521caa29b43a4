package run

import (
	"errors"
	"fmt"
	"io"
	"strings"

	"brineyard/internal/cli/bind"
	"brineyard/internal/fault"
	"brineyard/internal/words"
)

// mostAnswers are the wrong answers in a row after which nothing more is asked.
const mostAnswers = 3

// CanAsk reports whether a person is there to ask: one who types, and sees what is asked.
func (e *Env) CanAsk() bool { return IsTerminal(e.In) && IsTerminal(e.Out) }

// Ask puts a question and returns the answer, which is the usual one where it is empty. Errors:
// io.EOF where nobody answers.
func (e *Env) Ask(question, usual string) (string, error) {
	if usual != "" {
		question += " [" + usual + "]"
	}
	fmt.Fprint(e.Err, words.OneLine(question), ": ")
	line, err := readLine(e.In)
	if err != nil {
		fmt.Fprintln(e.Err)
		return "", err
	}
	if line = strings.TrimSpace(line); line == "" {
		line = usual
	}
	return line, nil
}

// readLine reads no further than the end of a line, so that who asks next finds what follows.
// Errors: io.EOF without a whole line, and others of the reader.
func readLine(r io.Reader) (string, error) {
	var line []byte
	var next [1]byte
	for {
		n, err := r.Read(next[:])
		switch {
		case n == 1 && next[0] == '\n':
			return string(line), nil
		case n == 1:
			line = append(line, next[0])
		case err != nil:
			return "", err
		}
	}
}

// fill fills the request. Where a person is there, what is missing is asked for; a wrong answer is
// refused and asked for again. Errors: Refusal, which is that of the missing thing where nobody
// answers.
func (s *Session) fill(b *bind.Set, path string, args []string) (*bind.Scope, error) {
	scope := s.Scope(args)
	err := b.Fill(scope)
	lack := (*bind.Lack)(nil)
	for wrong := 0; errors.As(err, &lack) && wrong < mostAnswers && s.Env.CanAsk(); {
		said, free := b.Said(), scope.Args
		next, problem := s.answer(b, scope, lack)
		switch {
		case errors.Is(problem, io.EOF):
			return nil, err
		case problem == nil || errors.As(problem, new(*bind.Lack)): // which is another one
			scope, err, wrong = next, problem, 0
			continue
		}
		b.TakeBack(said)
		scope.Args = free
		wrong++
		s.Tell("%v", problem)
	}
	if err != nil {
		return nil, err
	}
	if b.Said() > 0 || len(args) == 0 && len(scope.Args) > 0 {
		s.asked = b.Line("brineyard "+path, scope.Args)
	}
	return scope, nil
}

// answer asks for what is missing, and fills the request with it. Errors: io.EOF where nobody
// answers, Refusal.
func (s *Session) answer(b *bind.Set, scope *bind.Scope, lack *bind.Lack) (*bind.Scope, error) {
	text, err := s.Env.Ask(lack.Question, lack.Usual)
	switch {
	case err != nil:
		return nil, io.EOF
	case text == "":
		return nil, fault.Refuse("no answer; ctrl-C ends this")
	}
	if err := lack.Take(scope, text); err != nil {
		return nil, err
	}
	next := s.Scope(scope.Args)
	return next, b.Fill(next)
}
