package disk

import (
	"errors"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"brineyard/internal/journal"
	"brineyard/internal/quantity"
)

func TestAppendMakesAndGoesOn(t *testing.T) {
	path := fresh(t)
	require.Equal(t, Added{Numbers: []int{1, 2}, Created: true, End: EndUnknown}, mustAppend(t, path, batch(), load()))
	require.Equal(t, Added{Numbers: []int{3}}, mustAppend(t, path, note("=HYPERLINK(\"x\")\nand more")))
	a := requireSound(t, path, 3)
	require.Equal(t, "=HYPERLINK(\"x\")\nand more", a.Entries[2].Note)
	require.Equal(t, 4, strings.Count(content(t, path), "\n"))
	require.Len(t, content(t, path+endSuffix), 2*slotSize)
	require.NoFileExists(t, path+tornSuffix)
}

// The units are those of the file, once it is there.
func TestAppendKeepsUnits(t *testing.T) {
	path := fresh(t)
	_, err := Append(path, Options{System: quantity.Metric}, []journal.Entry{batch()})
	require.NoError(t, err)
	mustAppend(t, path, batch())
	require.Equal(t, 2, strings.Count(content(t, path), ",4145.02590348,"))
	require.Equal(t, quantity.Metric, requireSound(t, path, 2).System)
}

func TestAppendOfNothing(t *testing.T) {
	path := fresh(t)
	require.Equal(t, Added{Created: true, End: EndUnknown}, mustAppend(t, path))
	require.Equal(t, journal.HeaderLine(journal.NewestForm(quantity.US)), content(t, path))
	require.Equal(t, Added{}, mustAppend(t, path))
	requireSound(t, path, 0)
}

func TestAppendToEmptyFileKeepsMode(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("no such modes")
	}
	path := write(t, fresh(t), "")
	require.NoError(t, os.Chmod(path, 0o640))
	before, err := os.Stat(path)
	require.NoError(t, err)
	require.True(t, mustAppend(t, path, batch()).Created)
	mustAppend(t, path, batch())
	after, err := os.Stat(path)
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o640), after.Mode())
	require.True(t, os.SameFile(before, after))
}

// Whoever comes by a link takes the same lock.
func TestAppendThroughLink(t *testing.T) {
	path := made(t, batch())
	link := filepath.Join(t.TempDir(), "link.csv")
	if err := os.Symlink(path, link); err != nil {
		t.Skip(err)
	}
	mustAppend(t, link, batch())
	requireSound(t, path, 2)
	require.NoFileExists(t, link+endSuffix)
	info, err := os.Lstat(link)
	require.NoError(t, err)
	require.NotZero(t, info.Mode()&os.ModeSymlink)
}

func TestAppendRefusesEntries(t *testing.T) {
	path := made(t, batch())
	before := content(t, path)
	for want, spoil := range map[string]func(*journal.Entry){
		"time is missing":                    func(e *journal.Entry) { e.Time = time.Time{} },
		`time: "12026-01-15T06:40:00Z"`:      func(e *journal.Entry) { e.Time = time.Date(12026, 1, 15, 6, 40, 0, 0, time.UTC) },
		`kind: "boil" is no kind of event`:   func(e *journal.Entry) { e.Kind = "boil" },
		`volume [gal]: "NaN" is no number`:   func(e *journal.Entry) { e.Volume = to(quantity.Volume(math.NaN())) },
		`reading: "+Inf" is no number`:       func(e *journal.Entry) { e.Reading = to(math.Inf(1)) },
		`cancels: 1 in an entry of kind bat`: func(e *journal.Entry) { e.Cancels = 1 },
		`cancels: 0 in an entry of kind und`: func(e *journal.Entry) { e.Kind = journal.Undo },
		"its text takes 70":                  func(e *journal.Entry) { e.Note = strings.Repeat("x", 70000) },
	} {
		bad := batch()
		spoil(&bad)
		_, err := Append(path, Options{}, []journal.Entry{load(), bad})
		require.ErrorContains(t, err, path+": entry 2 of 2 cannot be added: ")
		require.ErrorContains(t, err, want)
		require.Equal(t, before, content(t, path))
	}
	longest := batch()
	longest.Note = ""
	longest.Number = journal.MostEntries
	longest.Note = strings.Repeat("x", mostLine-1-len(journal.NewEncoder().Row(&longest, journal.NewestForm(quantity.US))))
	mustAppend(t, path, longest)
	longest.Note += "x"
	_, err := Append(path, Options{}, []journal.Entry{longest})
	require.ErrorContains(t, err, "allowed: up to 65536")
	requireSound(t, path, 2)
}

// requireCut cuts a journal after size bytes and adds to what is left. Before the cut
// it had rows entries up to offset whole.
func requireCut(t *testing.T, text string, size, whole, rows int, zeros string) {
	path := write(t, fresh(t), text[:size]+zeros)
	a, err := Append(path, Options{}, []journal.Entry{note("after")})
	require.NoError(t, err, "%d", size)
	torn := text[whole:size] + zeros
	if torn == "" {
		require.Equal(t, Added{Numbers: a.Numbers, Created: size == 0, End: EndUnknown}, a)
		require.NoFileExists(t, path+tornSuffix)
	} else {
		require.Equal(t, path+tornSuffix, a.SetAside)
		require.EqualValues(t, len(torn), a.Torn)
		require.Equal(t, torn+"\n", content(t, path+tornSuffix))
		require.True(t, strings.HasPrefix(content(t, path), text[:whole]))
	}
	require.Equal(t, "after", requireSound(t, path, rows+1).Entries[rows].Note)
}

// A loss of power may cut the last row anywhere. A row that lacks nothing but its
// line end is whole.
func TestTornAnywhere(t *testing.T) {
	text := content(t, made(t, batch(), load(), batch()))
	last := strings.LastIndexByte(text[:len(text)-1], '\n') + 1
	for size := last; size < len(text)-1; size++ {
		requireCut(t, text, size, last, 2, "")
		if size%10 == 0 {
			requireCut(t, text, size, last, 2, strings.Repeat("\x00", 700))
		}
	}
	requireCut(t, text, len(text)-1, len(text)-1, 3, "")
	requireCut(t, text, len(text), len(text), 3, "")
	requireCut(t, text, len(text), len(text), 3, strings.Repeat("\x00", 200_000))
	header := len(journal.HeaderLine(journal.NewestForm(quantity.US)))
	for size := range header - 1 {
		requireCut(t, text, size, 0, 0, "")
	}
	requireCut(t, text, 7, 0, 0, strings.Repeat("\x00", 4000))
	requireCut(t, text, header-1, header-1, 0, "")
	requireCut(t, text, header, header, 0, "")
}

// What is torn is gathered, and where it cannot be kept nothing is cut off.
func TestTornAgain(t *testing.T) {
	path := made(t, batch())
	write(t, path, content(t, path)+"2,2026")
	mustAppend(t, path)
	write(t, path, content(t, path)+"2,20")
	mustAppend(t, path, load())
	require.Equal(t, "2,2026\n2,20\n", content(t, path+tornSuffix))
	requireSound(t, path, 2)

	write(t, path, content(t, path)+"3,2")
	before := content(t, path)
	require.NoError(t, os.Remove(path+tornSuffix))
	require.NoError(t, os.Mkdir(path+tornSuffix, 0o755))
	_, err := Append(path, Options{}, []journal.Entry{load()})
	require.EqualError(t, err, path+": nothing was added: "+path+".torn: a folder; expected a file")
	require.Equal(t, before, content(t, path))
}

// The numbers go on from the highest, whatever somebody did to the file.
func TestNumbersGoOn(t *testing.T) {
	good := content(t, made(t, batch(), note("second"), note("third")))
	lines := strings.SplitAfter(good, "\n")
	long := strings.Repeat(lines[1], 2000) // more than is read of the end
	for name, c := range map[string]struct {
		text string
		want int
	}{
		"last row edited":   {strings.Replace(good, "third", "3rd", 1), 4},
		"last row garbled":  {strings.Replace(good, "3,2026", "?,2026", 1), 3},
		"rows turned round": {lines[0] + lines[3] + lines[2] + lines[1], 4},
		"number edited":     {strings.Replace(good, "\n2,", "\n20,", 1), 21},
		"number too large":  {strings.Replace(good, "\n2,", "\n99999999999,", 1), 4},
		"CRLF":              {strings.ReplaceAll(good, "\n", "\r\n"), 4},
		"byte order mark":   {journal.ByteOrderMark + good, 4},
		"empty line":        {good + "\n", 4},
		"all quoted":        {lines[0] + `"9"` + strings.TrimPrefix(lines[1], "1"), 10},
		"far from the end":  {lines[0] + lines[3] + long, 4},
	} {
		path := write(t, fresh(t), c.text)
		require.Equal(t, []int{c.want}, mustAppend(t, path, load()).Numbers, name)
		require.True(t, strings.HasPrefix(content(t, path), c.text), name)
	}
	path := write(t, fresh(t), lines[0]+"?,a\n?,b\n")
	_, err := Append(path, Options{}, []journal.Entry{load()})
	require.EqualError(t, err, path+": none of its 2 rows tells its entry number; allowed: at least one that does")
	path = write(t, fresh(t), lines[0]+"2147483647,a\n")
	_, err = Append(path, Options{}, []journal.Entry{load()})
	require.EqualError(t, err, path+": its last entry number is 2147483647; allowed: up to 2147483647")
}

// failing is a file of which one thing fails.
type failing struct {
	*os.File
	short, sync, truncate bool
}

var errBroken = errors.New("disk broken")

func (f failing) WriteAt(p []byte, at int64) (int, error) {
	if f.short {
		n, _ := f.File.WriteAt(p[:len(p)/2], at)
		return n, errBroken
	}
	return f.File.WriteAt(p, at)
}

func (f failing) Sync() error {
	if f.sync {
		return errBroken
	}
	return f.File.Sync()
}

func (f failing) Truncate(size int64) error {
	if f.truncate {
		return errBroken
	}
	return f.File.Truncate(size)
}

func TestFailedWritesAreTakenBack(t *testing.T) {
	path := made(t, batch())
	before := content(t, path)
	for _, c := range []struct {
		fail  failing
		want  string
		after string
	}{
		{failing{short: true}, "nothing was recorded: disk broken", before},
		{failing{sync: true}, "recording failed: disk broken; and the file could not be put back", before},
		{failing{short: true, truncate: true}, "recording failed: disk broken; and the file could not be put back", ""},
	} {
		write(t, path, before)
		b := opened(t, path)
		c.fail.File = b.f.(*os.File)
		b.f = c.fail
		_, err := b.add([]journal.Entry{load()})
		b.close()
		require.ErrorContains(t, err, c.want)
		if c.after != "" {
			require.Equal(t, c.after, content(t, path))
		}
		require.True(t, strings.HasPrefix(content(t, path), before))
	}
}

// A file that may be read alone: opened so here, since some users may write any file.
func TestReadOnlyFile(t *testing.T) {
	path := made(t, batch())
	before := content(t, path)
	b := opened(t, path)
	b.close()
	f, err := os.Open(path)
	require.NoError(t, err)
	b.f = f
	defer b.close()
	_, err = b.add([]journal.Entry{load()})
	require.ErrorContains(t, err, "recording failed: ")
	require.Equal(t, before, content(t, path))

	require.NoError(t, os.Chmod(path, 0o400))
	if f, err := os.OpenFile(path, os.O_RDWR, 0); err == nil {
		f.Close()
		t.Skip("this user may write any file")
	}
	_, err = Append(path, Options{}, []journal.Entry{load()})
	require.EqualError(t, err, path+": permission denied")
	require.ErrorIs(t, err, os.ErrPermission)
	requireSound(t, path, 1)
}

// Many begin the same journal at the same time.
func TestManyBeginners(t *testing.T) {
	const beginners = 6
	runs := 25
	if endurance() {
		runs = 150
	}
	for range runs {
		path := fresh(t)
		failed := make(chan error, beginners)
		for range beginners {
			go func() {
				_, err := Append(path, Options{}, []journal.Entry{batch()})
				failed <- err
			}()
		}
		for range beginners {
			require.NoError(t, <-failed)
		}
		requireSound(t, path, beginners)
	}
}

// A file of version 1 is read, and takes what its columns can hold.
func TestOlderVersion(t *testing.T) {
	old := journal.Form{Units: quantity.US, Version: 1}
	first := batch()
	first.Number = 1
	path := write(t, fresh(t), journal.HeaderLine(old)+string(journal.NewEncoder().Row(&first, old))+"\n")
	mustAppend(t, path, load())
	require.True(t, strings.HasPrefix(content(t, path), "brineyard journal 1,"))
	requireSound(t, path, 2)
	e := journal.Entry{Time: first.Time, Kind: journal.Delivery, Salt: to(quantity.Mass(1e4)), Ticket: "77-12"}
	_, err := Append(path, Options{}, []journal.Entry{e})
	require.EqualError(t, err, path+": entry 1 of 1 cannot be added: this journal is of version 1, which has no column for ticket; allowed: a new journal that begins with counts, or the entry without it")
	requireSound(t, path, 2)
}
