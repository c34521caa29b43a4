package learn

import (
	"fmt"

	"brineyard/internal/cli/run"
	"brineyard/internal/cli/show"
	"brineyard/internal/drill"
	"brineyard/internal/report"
)

// print makes a sheet of problems, or the key to it.
func (q *practice) print(s *run.Session) (run.Reply, error) {
	set := drill.NewSet(q.request)
	var problems []drill.Problem
	for range q.sheet {
		p, err := set.Next()
		if err != nil {
			return run.Reply{}, err
		}
		problems = append(problems, p)
	}
	reply := run.Reply{Words: func(d *report.Document) {
		d.Title = "Practice problems"
		if !q.key {
			d.Verdict = fmt.Sprintf("Set %d, level %d. A pocket calculator will do.", q.request.Seed, q.request.Level)
			d.Tables = []report.Table{problemTable(problems)}
			if s.Globals.Working {
				d.Notes = []string{"No working here: it comes with the answers; add --key."}
			}
			return
		}
		d.Verdict = fmt.Sprintf("Answers to set %d, level %d; right within 1 %%, a strength within 0.1.", q.request.Seed, q.request.Level)
		d.Tables = []report.Table{answerTable(problems)}
	}}
	if q.key {
		reply.Working = func() []report.Step { return keyWorking(s.View, problems) }
	}
	return reply, nil
}

func problemTable(problems []drill.Problem) report.Table {
	t := report.Table{Key: "problems", Title: "Problems", Columns: []report.Column{{Key: "number", Label: "No."}, {Key: "topic", Label: "Topic"}, {Key: "question", Label: "Question"}}}
	for i, p := range problems {
		t.Rows = append(t.Rows, []report.Value{show.Count(i + 1), report.Word(string(p.Topic)), report.Word(questionText(p))})
	}
	return t
}

func answerTable(problems []drill.Problem) report.Table {
	t := report.Table{Key: "answers", Title: "Answers", Columns: []report.Column{{Key: "number", Label: "No."}, {Key: "answer", Label: "Answer"}}}
	for i, p := range problems {
		t.Rows = append(t.Rows, []report.Value{show.Count(i + 1), report.Word(rightAnswer(p))})
	}
	return t
}

// keyWorking is the working of every problem of a sheet, each step under its number.
func keyWorking(v show.View, problems []drill.Problem) []report.Step {
	var all []report.Step
	for i, p := range problems {
		for _, step := range workingOf(v, p) {
			step.What = fmt.Sprintf("Problem %d. %s", i+1, step.What)
			all = append(all, step)
		}
	}
	return all
}
