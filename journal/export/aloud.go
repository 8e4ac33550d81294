package export

import (
	"guidecoat/journal/aloud"
	"guidecoat/journal/problem"
)

// Aloud is what `proofread --aloud --json` prints.
type Aloud struct {
	Lines []AloudLine `json:"lines"`
	problem.Report
}

// An AloudLine is one line with what it was understood to say.
type AloudLine struct {
	File    string        `json:"file"`
	Line    int           `json:"line"`
	Key     string        `json:"key"`
	Name    string        `json:"name,omitempty"`
	Words   string        `json:"words"`
	LeftOut bool          `json:"left_out,omitempty"`
	Reading aloud.Reading `json:"reading"`
}

// NewAloud returns the lines with the problems of the same notes.
func NewAloud(lines []*aloud.Line, problems []problem.Problem) Aloud {
	out := Aloud{Lines: make([]AloudLine, 0, len(lines)), Report: problem.NewReport(problems)}
	for _, l := range lines {
		out.Lines = append(out.Lines, AloudLine{l.File(), l.Number(), l.Key, l.Name, l.Words, l.LeftOut, l.Reading})
	}
	return out
}
