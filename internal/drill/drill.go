// Package drill makes practice problems for a new hand out of a yard's own
// numbers, answers them with the yard's calculators, and judges the answers typed.
//
// A problem shows round numbers of the user's system and is answered from these very numbers,
// so that a pocket calculator comes to the same answer. It holds the answers of known wrong
// methods as well, so that the cause of a wrong answer can be named. The same request gives
// the same problem.
package drill

import (
	"math/rand/v2"

	"brineyard/internal/brine"
	"brineyard/internal/fault"
	"brineyard/internal/lineup"
	"brineyard/internal/quantity"
	"brineyard/internal/truck"
	"brineyard/internal/words"
	"brineyard/internal/yard"
)

// The fields of a request, for fault.InputError.
const (
	FieldLevel  = "level"
	FieldTopic  = "topic"
	FieldAnswer = "answer"
)

// The levels. The lowest has one idea in round numbers; the next adds temperature and the
// quality of the salt; the highest has two ideas in one problem.
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

// Text is the question in its own system of units.
func (p Problem) Text() string { return fault.Sentence(p.Question, p.Args, p.System) }

// Mistake is a wrong method and the answer that it leads to.
type Mistake struct {
	Name    string
	Explain string // one sentence, to the one who made it
	Answer  quantity.Quantity
}

// Working is the request to the calculator that answers the problem, with its result: the
// pair of one calculator, and Glass before it where the question gives a reading.
type Working struct {
	Glass       *brine.Sample
	GlassResult *brine.ReadingResult
	// Rule is what the glass shows too much for each Each of temperature that it is colder than it is
	// marked for: the rule that the question gives.
	Rule quantity.Strength
	Each quantity.Difference

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

	// Closing leads from the result to the answer, where the answer is not one of its figures.
	Closing []Closing
}

// Lineup is a setting of valves to be judged.
type Lineup struct {
	Plumbing yard.Plumbing
	From, To string
	Open     []string
}

// mostDraws bounds the search for numbers that tell the mistakes apart. With a usual yard one
// draw in a few does.
const mostDraws = 400

// topics are those that a request leaves to draw from; its shop is filled.
func (r Request) topics() ([]topic, error) {
	if r.Level < Lowest || r.Level > Highest {
		return nil, fault.Input(FieldLevel, "no such level; allowed: 1, 2, 3")
	}
	topics := r.Shop.topics()
	if r.Topic == "" {
		return topics, nil
	}
	for _, t := range topics {
		if t.name == r.Topic {
			return []topic{t}, nil
		}
	}
	return nil, fault.Input(FieldTopic, "no such topic with this equipment; allowed: %v", fault.Word(words.Joined(namesOf(topics), "none")))
}

// problem draws a problem of one of the topics. Where the numbers of that one give none, it
// takes the next.
func (r Request) problem(topics []topic) (Problem, error) {
	first := rand.New(rand.NewPCG(r.Seed, 0)).IntN(len(topics))
	for i := range topics {
		if p, ok := r.draw(topics[(first+i)%len(topics)]); ok {
			return p, nil
		}
	}
	return Problem{}, fault.Input(FieldTopic, "these numbers give no problem of %v at this level; allowed: another topic or level",
		fault.Word(words.Joined(namesOf(topics), "none")))
}

// draw draws numbers, each time from the next sub-seed, until they make a problem.
func (r Request) draw(t topic) (Problem, bool) {
	for n := range uint64(mostDraws) {
		p, err := t.draft(&draw{Request: r, rng: rand.New(rand.NewPCG(r.Seed, n+1))})
		if err != nil {
			continue // the numbers are of no brine, or of none that teaches
		}
		p.Seed, p.Topic, p.Level, p.System = r.Seed, t.name, r.Level, r.System
		if p.finish() {
			return p.Problem, true
		}
	}
	return Problem{}, false
}
