package file

import "testing"

// An edit of whatever text either says why not, or leaves a text in which the key stands as it was set; it never panics.
func FuzzEdit(f *testing.F) {
	f.Add(string(Example), "glass", 0)
	f.Add("[[glass]]\nname = \"a\"\r\noffset = 1 # x\n", "glass", 0)
	f.Add("[thermometer]\noffset = \"\"\"\n", "thermometer", 0)
	f.Fuzz(func(t *testing.T, text, table string, index int) {
		after, err := Edit(text, table, index, []Setting{{"offset", `"0.1%"`}})
		if err != nil {
			return
		}
		again, err := Edit(after, table, index, []Setting{{"offset", `"0.1%"`}})
		if err != nil || again != after {
			t.Fatalf("%q edits to %q, and that to %q (%v)", text, after, again, err)
		}
	})
}
