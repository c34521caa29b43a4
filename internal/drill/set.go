package drill

// Set draws problems one after another, from the seed of its request on, none of them
// twice.
type Set struct {
	request Request
	seen    map[string]bool
}

// NewSet begins a set.
func NewSet(r Request) *Set { return &Set{r, map[string]bool{}} }

// mostRepeats is how many problems are passed over for one that was not in the set yet;
// then the topic has run out of them.
const mostRepeats = 100

// Next draws a problem. Errors: as those of New.
func (s *Set) Next() (Problem, error) {
	for n := 0; ; n++ {
		p, err := New(s.request)
		s.request.Seed++
		if err != nil {
			return p, err
		}
		if text := p.Text(); !s.seen[text] || n == mostRepeats {
			s.seen[text] = true
			return p, nil
		}
	}
}
