package records

import (
	"brineyard/internal/cli/run"
	"brineyard/internal/fault"
	"brineyard/internal/journal"
	"brineyard/internal/words"
)

var journalCommand = run.Command{
	Use:   "journal",
	Short: "Keep what happened, and sum up tanks, season and cleaning",
	Long: "The journal is one file that people and spreadsheets read: CSV, one row an\n" +
		"event, rows only ever added. From it come what stands in each tank, the season's\n" +
		"figures, the salt balance, and when a tank is to be cleaned next.",
	Example: "  brineyard journal add batch --tank mixer --volume 1095gal --strength 23.4%\n" +
		"  brineyard journal season",
	Below: []run.Command{addCommand, listCommand, undoCommand, tanksCommand, seasonCommand, importCommand, verifyCommand},
}

// readJournal reads a journal and refuses a file that is none. Faulty rows are left out, and
// a note reports them.
func readJournal(s *run.Session, path string) (*journal.Journal, error) {
	j, err := journal.Read(path)
	if err != nil {
		return nil, run.JournalError(err)
	}
	if len(j.Entries) == 0 && len(j.Faults) > 0 {
		return nil, fault.Refuse("%s: none of its %d rows can be read: %s; journal verify lists all", words.Quoted(path), len(j.Faults), j.Faults[0])
	}
	if len(j.Faults) > 0 {
		s.Note(s.View.Say("Rows of %s that are not as they should be: %d; journal verify lists them.", path, len(j.Faults)))
	}
	if j.Torn > 0 {
		s.Note(s.View.Say("The last line of %s was cut short, as by a loss of power, and does not count; the next entry sets it aside.", path))
	}
	return j, nil
}
