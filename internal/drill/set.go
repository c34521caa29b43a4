package drill

// Set draws problems one after another, from the seed of its request on, none of them
// twice.
type Set struct {
	request Request
	topics  []Topic
	err     error // with the request
	seen    map[string]bool
}

// NewSet begins a set.
func NewSet(r Request) *Set {
	s := &Set{request: r, seen: map[string]bool{}}
	s.topics, s.err = r.topics()
	s.request.Shop = r.Shop.filled()
	return s
}

// mostRepeats is how many problems are passed over for one that was not in the set yet;
// then the topic has run out of them.
const mostRepeats = 100

// Next draws a problem. Errors: as those of New.
func (s *Set) Next() (Problem, error) {
	if s.err != nil {
		return Problem{}, s.err
	}
	for n := 0; ; n++ {
		p, err := s.request.problem(s.topics)
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
