package quantity

import "testing"

// Plain changes nothing twice, keeps all but marks of a number, and never panics.
func FuzzPlain(f *testing.F) {
	for _, text := range []string{"1,750gal", "1 200 L", "23,3%", "-5,5C", "1,00,000", ",", "1\u202f200", "9 999 999,25 kg", ""} {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		once := Plain(text)
		if twice := Plain(once); twice != once {
			t.Fatalf("%q becomes %q, and that %q", text, once, twice)
		}
		if len(once) > len(text) {
			t.Fatalf("%q grows to %q", text, once)
		}
		_ = Unclear(text, Metric)
	})
}
