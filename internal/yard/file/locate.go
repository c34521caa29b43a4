package file

import (
	"regexp"
	"sort"
	"strings"
	"unicode/utf8"
)

// places knows where the keys and table heads of a TOML text stand, which the
// parser does not tell.
type places struct{ keys []place }

// place is a key of a table, or with no key the head of one; index counts the
// heads of that name in a list of tables, from 0.
type place struct {
	table        string
	index        int
	key          string
	line, column int
}

// locate scans the text line by line. Within strings that run over lines it may
// take a line for a key; it is only asked for keys that are there. It is called for
// faults alone: a good file costs no scan.
func locate(text string) places {
	headLine := regexp.MustCompile(`^\s*\[{1,2}\s*([A-Za-z0-9_.\-"' ]+?)\s*\]{1,2}\s*(#.*)?$`)
	keyLine := regexp.MustCompile(`^\s*([A-Za-z0-9_.\-"' ]+?)\s*=`)
	p := places{}
	head, index := "", 0
	count := map[string]int{}
	for i, line := range strings.Split(strings.ReplaceAll(text, "\r\n", "\n"), "\n") {
		if m := headLine.FindStringSubmatchIndex(line); m != nil {
			head = bareKey(line[m[2]:m[3]])
			index = count[head]
			count[head]++
			p.keys = append(p.keys, place{head, index, "", i + 1, utf8.RuneCountInString(line[:m[2]]) + 1})
			continue
		}
		if m := keyLine.FindStringSubmatchIndex(line); m != nil {
			table, key := head, bareKey(line[m[2]:m[3]])
			if dot := strings.LastIndexByte(key, '.'); dot >= 0 {
				table, key = strings.TrimPrefix(head+"."+key[:dot], "."), key[dot+1:]
			}
			p.keys = append(p.keys, place{table, index, key, i + 1, utf8.RuneCountInString(line[:m[2]]) + 1})
		}
	}
	return p
}

func bareKey(key string) string { return strings.NewReplacer(`"`, "", "'", "", " ", "").Replace(key) }

// find returns where a key stands; else the head of its table; else the key that
// holds the table in brackets or braces; else the first line.
func (p places) find(table string, index int, key string) (line, column int) {
	line, column = 1, 1
	outer, last := "", table
	if dot := strings.LastIndexByte(table, '.'); dot >= 0 {
		outer, last = table[:dot], table[dot+1:]
	}
	rank := 0
	better := func(r int, at place) {
		if r > rank {
			rank, line, column = r, at.line, at.column
		}
	}
	for _, at := range p.keys {
		switch {
		case at.table == table && at.index == index && at.key == key,
			at.table == strings.TrimPrefix(table+"."+key, ".") && at.key == "":
			better(3, at)
		case at.table == table && at.index == index && at.key == "":
			better(2, at)
		case at.table == outer && at.key == last:
			better(1, at)
		}
	}
	return line, column
}

// sort puts faults in the order of the file.
func (f Faults) sort() {
	sort.SliceStable(f, func(i, j int) bool {
		if f[i].Line != f[j].Line {
			return f[i].Line < f[j].Line
		}
		return f[i].Column < f[j].Column
	})
}
