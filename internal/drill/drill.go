// Package drill makes practice problems for a new hand out of a yard's own
// numbers, answers them with the yard's calculators, and judges what is answered.
//
// A problem shows round numbers of the user's system, and is answered from these
// very numbers, so that a pocket calculator comes to the same answer. With it come
// the answers that known wrong methods lead to, so that a wrong answer can be told
// by its cause. The same request gives the same problem.
package drill

import (
	"math/rand/v2"
	"slices"

	"brineyard/internal/brine"
	"brineyard/internal/fault"
	"brineyard/internal/lineup"
	"brineyard/internal/quantity"
	"brineyard/internal/truck"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// The fields of a request, for brine.InputError.
const (
	FieldLevel  = "level"
	FieldTopic  = "topic"
	FieldAnswer = "answer"
)

// The levels: one idea in round numbers; temperature and the quality of the salt;
// two ideas in one problem.
const (
	Lowest  = 1
	Highest = 3
)

// Request asks for a problem.
type Request struct {
	Seed   uint64
	Level  int
	Topic  Topic           // empty for any that the shop has the equipment for
	System quantity.System // in which the numbers are round
	Shop   Shop
}

// Problem is a question with its answer.
type Problem struct {
	Seed   uint64
	Topic  Topic
	Level  int
	System quantity.System
	// Question is a format with a %v for each of Args.
	Question string
	Args     []quantity.Quantity
	Answer   Answer
	Mistakes []Mistake
	Working  Working
}

// Text is the question in the units that it was drawn in.
func (p Problem) Text() string { return fault.Sentence(p.Question, p.Args, p.System) }

// Mistake is a wrong method and the answer that it leads to.
type Mistake struct {
	Name    string
	Explain string // one sentence, to the one who made it
	Answer  quantity.Quantity
}

// Working is the calculator's request that answers the problem, with its result:
// the pair of one calculator, and Glass besides where a reading comes first.
type Working struct {
	Glass       *brine.Sample
	GlassResult *brine.ReadingResult

	Correct    *brine.CorrectRequest
	Correction *brine.Correction

	Check       *brine.CheckRequest
	CheckResult *brine.CheckResult

	Batch       *brine.BatchRequest
	BatchResult *brine.Batch

	Blend       *brine.BlendRequest
	BlendResult *brine.Blend

	Truck       *truck.Request
	TruckResult *truck.Result

	Lineup        *Lineup
	LineupSetting *lineup.Setting

	// Closing goes on from there to the answer, where that is not a figure of the result.
	Closing []Closing
}

// Lineup is a setting of valves to be judged.
type Lineup struct {
	Plumbing yard.Plumbing
	From, To string
	Open     []string
}

// mostDraws bounds the search for numbers that tell the mistakes apart. One draw in
// a few does, with a usual yard.
const mostDraws = 400

// New makes a problem. Errors: brine.InputError for a level or topic that there is
// not, or that the shop has no numbers for.
func New(r Request) (Problem, error) { return NewSet(r).Next() }

// topics are those that a request leaves. Errors: as those of New.
func (r Request) topics() ([]Topic, error) {
	if r.Level < Lowest || r.Level > Highest {
		return nil, bad(FieldLevel, "no such level; allowed: 1, 2, 3")
	}
	topics := r.Shop.Topics()
	if r.Topic == "" {
		return topics, nil
	}
	if !slices.Contains(topics, r.Topic) {
		return nil, bad(FieldTopic, "no such topic with this equipment; allowed: %v", Word(words.Joined(topics, "none")))
	}
	return []Topic{r.Topic}, nil
}

// problem draws one of a topic, the first that gives any.
func (r Request) problem(topics []Topic) (Problem, error) {
	first := rand.New(rand.NewPCG(r.Seed, 0)).IntN(len(topics))
	for i := range topics {
		if p, ok := r.draw(topics[(first+i)%len(topics)]); ok {
			return p, nil
		}
	}
	return Problem{}, bad(FieldTopic, "these numbers give no problem of %v at this level; allowed: another topic or level", Word(words.Joined(topics, "none")))
}

// draw draws numbers, each time from the next sub-seed, until they are fit.
func (r Request) draw(topic Topic) (Problem, bool) {
	sketch := topic.sketcher()
	for n := range uint64(mostDraws) {
		d := &draw{Request: r, rng: rand.New(rand.NewPCG(r.Seed, n+1))}
		s, err := sketch(d)
		if err != nil {
			continue // the numbers are of no brine, or of none that teaches
		}
		s.Seed, s.Topic, s.Level, s.System = r.Seed, topic, r.Level, r.System
		if s.settle() {
			return s.Problem, true
		}
	}
	return Problem{}, false
}

func bad(field, reason string, args ...quantity.Quantity) error {
	return &fault.InputError{Field: field, Reason: reason, Args: args}
}
