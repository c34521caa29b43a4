package drill

// Set draws problems one after another, from the seed of its request on, and none of them
// twice.
type Set struct {
	request Request
	topics  []topic
	err     error // with the request
	seen    map[string]bool
}

// NewSet begins a set.
func NewSet(r Request) *Set {
	s := &Set{request: r, seen: map[string]bool{}}
	s.request.Shop = r.Shop.filled()
	s.topics, s.err = s.request.topics()
	return s
}

// mostRepeats bounds the search for a problem that the set does not have yet. After so many
// the topic has run out of problems, and one comes again.
const mostRepeats = 100

// Next draws a problem. Errors: fault.InputError for a level or a topic that does not exist,
// or that the shop has no numbers for.
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
