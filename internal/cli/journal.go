package cli

import (
	"errors"
	"io/fs"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"syscall"
	"time"

	"brineyard/internal/journal"
	"brineyard/internal/season"
	"brineyard/internal/words"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// defaultJournal is the journal looked for beside the yard file, unless the environment
// names another.
const (
	defaultJournal = "journal.csv"
	journalEnv     = "BRINEYARD_JOURNAL"
)

func newJournal(env *Env, g *globals) *cobra.Command {
	cmd := &cobra.Command{
		Use:   "journal",
		Short: "Keep what happened, and sum up tanks, season and cleaning",
		Long: "The journal is one file that people and spreadsheets read: CSV, one row an\n" +
			"event, rows only ever added. From it come what stands in each tank, the season's\n" +
			"figures, the salt balance, and when a tank is to be cleaned next.",
		Example: "  brineyard journal add batch --tank mixer --volume 1095gal --strength 23.4%\n" +
			"  brineyard journal season",
		Args: subcommand,
		RunE: func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	cmd.AddCommand(
		newJournalAdd(env, g), newJournalList(env, g), newJournalUndo(env, g), newJournalTanks(env, g),
		newJournalSeason(env, g), newJournalImport(env, g), newJournalVerify(env, g),
	)
	return cmd
}

// ofJournal makes a command of one that takes nothing but a journal.
func ofJournal(env *Env, g *globals, cmd *cobra.Command, run func(s *setting, file string) error) *cobra.Command {
	path := journalFlag(cmd.Flags())
	cmd.Args = noArguments
	cmd.RunE = func(*cobra.Command, []string) error {
		s, err := newSetting(env, g)
		if err != nil {
			return err
		}
		return run(s, s.journalPath(path))
	}
	return cmd
}

// journalFlag names the journal.
func journalFlag(f *pflag.FlagSet) *text {
	t := &text{}
	f.Var(t, "journal", "journal `file` (default $"+journalEnv+", else "+defaultJournal+" beside the yard file)")
	return t
}

// journalPath is the journal in use: the flag's, the environment's, or beside the yard
// file.
func (s *setting) journalPath(flag *text) string {
	if flag.given {
		return flag.value
	}
	if path := s.env.Getenv(journalEnv); path != "" {
		return path
	}
	if s.yard != nil {
		return filepath.Join(filepath.Dir(s.yard.Path), defaultJournal)
	}
	return defaultJournal
}

// readJournal reads a journal. What cannot be read as one is wrong input; a faulty row is
// told of in a note and left out.
func (s *setting) readJournal(path string) (*journal.Journal, error) {
	j, err := journal.Read(path)
	if err != nil {
		return nil, journalError(err)
	}
	if len(j.Entries) == 0 && len(j.Faults) > 0 {
		return nil, usagef("%s: none of its %d rows can be read: %s; journal verify lists all", words.Quoted(path), len(j.Faults), j.Faults[0])
	}
	if len(j.Faults) > 0 {
		s.notes = append(s.notes, s.show("Rows of %s that are not as they should be: %d; journal verify lists them.", path, len(j.Faults)))
	}
	if j.Torn > 0 {
		s.notes = append(s.notes, s.show("The last line of %s was cut short, as by a loss of power, and does not count; the next entry sets it aside.", path))
	}
	return j, nil
}

// journalError makes a usage error of a file that is no journal, is not there, or may not be
// read. A disk that fails stays a failure.
func journalError(err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return usagef("%v; allowed: a journal, which journal add begins in a folder that is there", err)
	}
	var system syscall.Errno
	if errors.As(err, &system) && !slices.Contains([]syscall.Errno{syscall.ENOTDIR, syscall.EISDIR, syscall.ELOOP}, system) {
		return err
	}
	return usagef("%v", err)
}

// keep adds entries and says so in one line.
func (s *setting) keep(path string, command string, entries ...journal.Entry) error {
	added, err := journal.Append(path, s.system, entries)
	if err != nil {
		return journalError(err)
	}
	s.kept(path, command, added)
	if len(entries) == 1 {
		s.tell("  %s: %s", entries[0].Kind, s.entryText(&entries[0]))
	}
	return nil
}

// kept tells on the error stream what was recorded: results go to the other.
func (s *setting) kept(path, command string, added journal.Added) {
	if added.SetAside != "" {
		s.tell("brineyard %s: %s ended in %d bytes of a torn line; they are in %s now", command, words.Quoted(path), added.Torn, words.Quoted(added.SetAside))
	}
	var numbers []string
	for _, n := range added.Numbers {
		numbers = append(numbers, itoa(n))
	}
	word := "entry"
	if len(numbers) > 1 {
		word = "entries"
	}
	if len(numbers) > 4 {
		numbers = []string{numbers[0] + " to " + numbers[len(numbers)-1]}
	}
	// The rows are on the disk: that this could not be said is no failure.
	s.tell("brineyard %s: %s %s in %s", command, word, strings.Join(numbers, ", "), strconv.QuoteToGraphic(path))
}

// The layouts of times on the command line.
var timeLayouts = []string{time.RFC3339, "2006-01-02 15:04", "2006-01-02T15:04", "2006-01-02"}

// when reads a time of the journal, in the zone of the machine.
func (s *setting) when(flag string, t *text) (time.Time, error) {
	for _, layout := range timeLayouts {
		text := strings.TrimSpace(t.value)
		at, err := time.ParseInLocation(layout, text, s.env.Now().Location())
		if meant, _ := time.Parse(layout, text); err == nil && layout != timeLayouts[0] && !season.Wall(at).Equal(meant) {
			return at, usagef("--%s %s: there is no such time, as the clocks go forward; allowed: an hour later", flag, words.Quoted(t.value))
		}
		if err == nil {
			return at, nil
		}
	}
	return time.Time{}, usagef("--%s %s: not a time; allowed: like 2026-01-14 or \"2026-01-14 05:40\"", flag, words.Quoted(t.value))
}

// period reads --from and --to, as the clock of each entry shows them; a day as an end is
// meant whole.
func (s *setting) period(from, to *text) (begin, end time.Time, err error) {
	if from.given {
		if begin, err = s.when("from", from); err != nil {
			return begin, end, err
		}
		begin = season.Wall(begin)
	}
	if to.given {
		if end, err = s.when("to", to); err != nil {
			return begin, end, err
		}
		end = season.Wall(end)
		if len(strings.TrimSpace(to.value)) == len("2006-01-02") {
			end = end.AddDate(0, 0, 1)
		}
	}
	if to.given && from.given && !begin.Before(end) {
		return begin, end, usagef("--from %s and --to %s: nothing lies between; allowed: from before to", words.Quoted(from.value), words.Quoted(to.value))
	}
	return begin, end, nil
}

func periodFlags(f *pflag.FlagSet) (from, to *text) {
	from, to = &text{}, &text{}
	f.Var(from, "from", "first `day`, like 2026-01-14; the beginning unless given")
	f.Var(to, "to", "last `day`; the end unless given")
	return from, to
}

func newJournalUndo(env *Env, g *globals) *cobra.Command {
	operator := &text{}
	var path *text
	cmd := &cobra.Command{
		Use:   "undo NUMBER",
		Short: "Take an entry back, by an entry that says so",
		Long: "undo adds a row that takes another back; rows are never changed. To take back an\n" +
			"undo puts the entry in force again.",
		Example: "  brineyard journal undo 14\n  brineyard journal undo 14 --operator Ash",
		Args:    oneNumber,
		RunE: func(_ *cobra.Command, args []string) error {
			s, err := newSetting(env, g)
			if err != nil {
				return err
			}
			n, err := entryNumber(args[0])
			if err != nil {
				return err
			}
			file := s.journalPath(path)
			added, err := journal.Reverse(file, s.system, n, journal.Entry{Time: s.env.Now(), Operator: operator.value})
			if err != nil {
				return journalError(err)
			}
			s.kept(file, "journal undo", added)
			back := added.TookBack
			s.tell("  takes back %d, %s: %s", n, back.Kind, s.entryText(back))
			return nil
		},
	}
	path = journalFlag(cmd.Flags())
	cmd.Flags().Var(operator, "operator", "who records it")
	return cmd
}

// oneNumber takes exactly one word.
func oneNumber(_ *cobra.Command, args []string) error {
	if len(args) == 0 {
		return usagef("the number of an entry is missing; allowed: like 14; journal list shows them")
	}
	if len(args) != 1 {
		return usagef("%d words; allowed: the number of an entry, like 14; journal list shows them", len(args))
	}
	return nil
}
