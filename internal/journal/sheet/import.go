// Package sheet makes entries of a journal out of a spreadsheet's CSV file, whose headings a
// mapping names.
package sheet

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"brineyard/internal/journal"
	"brineyard/internal/words"
)

// mostImport is the size in bytes beyond which a file is not imported.
const mostImport = 16 << 20

// Read makes entries of a CSV file with other headings. Times without a zone are
// taken to be in loc; dates with slashes are month first. A number takes its unit
// from the cell, else from the mapping, else from brackets in the heading; one that
// could mean two units is a fault. The faults are of all rows at once, and the
// entries those of the rows without fault: a caller that wants all or nothing checks the
// faults first. Entries have no numbers yet.
func Read(r io.Reader, m Mapping, loc *time.Location) ([]journal.Entry, []journal.Fault, error) {
	if err := m.check(); err != nil {
		return nil, nil, err
	}
	limited := &io.LimitedReader{R: r, N: mostImport + 1}
	in := csv.NewReader(limited)
	in.FieldsPerRecord = -1
	in.ReuseRecord = true
	head, err := in.Read()
	if err != nil {
		return nil, nil, fmt.Errorf("line 1: no headings: %w", importReason(err))
	}
	importers, err := m.importers(head, loc)
	if err != nil {
		return nil, nil, err
	}
	entries, faults, err := importRows(in, importers, len(head))
	if limited.N == 0 {
		return nil, nil, fmt.Errorf("too large to be imported; allowed: up to %d MiB", mostImport>>20)
	}
	return entries, faults, err
}

// importRows reads the rows behind the headings; width counts these.
func importRows(in *csv.Reader, importers []importer, width int) ([]journal.Entry, []journal.Fault, error) {
	var entries []journal.Entry
	var faults []journal.Fault
	for {
		cells, err := in.Read()
		var syntax *csv.ParseError
		switch {
		case err == io.EOF:
			return entries, faults, nil
		case errors.As(err, &syntax):
			faults = append(faults, journal.Fault{Line: syntax.StartLine, Text: importReason(err).Error()})
			continue
		case err != nil:
			return nil, nil, err
		case strings.Join(cells, "") == "":
			continue
		}
		line, _ := in.FieldPos(0)
		e, wrong := importRow(importers, cells, width, line)
		if len(wrong) == 0 {
			if err := e.Check(); err != nil {
				wrong = []journal.Fault{{Line: line, Text: err.Error()}}
			}
		}
		faults = append(faults, wrong...)
		if len(wrong) == 0 {
			entries = append(entries, e)
		}
	}
}

// importReason says in our words where CSV is broken.
func importReason(err error) error {
	var syntax *csv.ParseError
	switch {
	case err == io.EOF:
		return errors.New("the file is empty")
	case errors.As(err, &syntax):
		return errors.New("a quote is out of place")
	}
	return err
}

// importer puts a cell of another file into an entry.
type importer struct {
	*column
	source Source
	index  int // of the cell; -1 for a value that is the same in every row
	unit   string
	loc    *time.Location
}

// importers finds the headings of a mapping.
func (m Mapping) importers(head []string, loc *time.Location) ([]importer, error) {
	if len(head) > 0 {
		head[0] = strings.TrimPrefix(head[0], journal.ByteOrderMark)
	}
	var out []importer
	for _, s := range m {
		t := importer{columnNamed(s.Column), s, -1, s.Unit, loc}
		if s.Heading != "" {
			var unit string
			var err error
			if t.index, unit, err = t.findHeading(head); err != nil {
				return nil, err
			}
			if t.unit == "" {
				t.unit = unit
			}
		}
		out = append(out, t)
	}
	return out, nil
}

// findHeading finds the heading of a source, with or without the unit in its
// brackets, and that unit.
func (t *importer) findHeading(head []string) (index int, unit string, err error) {
	index = -1
	for i, h := range head {
		h = strings.TrimSpace(h)
		bare, u := t.cutBrackets(h)
		if !strings.EqualFold(h, t.source.Heading) && !strings.EqualFold(bare, t.source.Heading) {
			continue
		}
		if index >= 0 {
			return 0, "", fmt.Errorf("line 1: the heading %s is there twice; allowed: once", words.Quoted(t.source.Heading))
		}
		index, unit = i, u
	}
	if index < 0 {
		var names []string
		for _, h := range head {
			names = append(names, words.Quoted(strings.TrimSpace(h)))
		}
		return 0, "", fmt.Errorf("line 1: no heading %s for %s; the file has %s", words.Quoted(t.source.Heading), t.name, words.Joined(names, "none"))
	}
	return index, unit, nil
}

// cutBrackets cuts a known unit in brackets off a heading.
func (t *importer) cutBrackets(heading string) (bare, unit string) {
	at := strings.LastIndexAny(heading, "[(")
	if at < 0 || !strings.HasSuffix(heading, "]") && !strings.HasSuffix(heading, ")") {
		return heading, ""
	}
	unit = strings.TrimSpace(heading[at+1 : len(heading)-1])
	if !t.knowsUnit(unit) {
		return heading, ""
	}
	return strings.TrimSpace(heading[:at]), unit
}

// importRow makes an entry of a row, or tells all that is wrong with it.
func importRow(importers []importer, cells []string, width, line int) (journal.Entry, []journal.Fault) {
	var e journal.Entry
	var faults []journal.Fault
	wrong := func(place string, err error) {
		faults = append(faults, journal.Fault{Line: line, Text: place + ": " + err.Error()})
	}
	if len(cells) > width {
		faults = append(faults, journal.Fault{Line: line, Text: fmt.Sprintf("%d cells; expected up to %d, as there are headings", len(cells), width)})
	}
	for _, t := range importers {
		text, place := t.source.Value, t.source.Column
		if t.index >= 0 {
			text, place = "", t.source.Heading
			if t.index < len(cells) {
				text = journal.Unguard(strings.TrimSpace(cells[t.index]))
			}
		}
		if text == "" {
			if t.name == "time" || t.name == "kind" {
				wrong(place, errors.New("empty; a row needs its "+t.name))
			}
			continue
		}
		if err := t.read(&e, cell{strings.Clone(text), t.unit, t.loc}); err != nil {
			wrong(place, err)
		}
	}
	return e, faults
}
