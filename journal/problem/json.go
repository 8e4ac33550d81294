package problem

import (
	"encoding/json"
	"io"
)

// A Report is the problems as the one JSON object that other programs are promised.
// Lines and columns count from 1, columns in code points, ends are exclusive; no
// problems is an empty list, no help is null, and so is no fix.
type Report struct {
	Problems []reported `json:"problems"`
	Errors   int        `json:"errors"`
	Warnings int        `json:"warnings"`
}

type reported struct {
	File      string  `json:"file"`
	Line      int     `json:"line"`
	Column    int     `json:"column"`
	EndLine   int     `json:"end_line"`
	EndColumn int     `json:"end_column"`
	Severity  string  `json:"severity"`
	Check     string  `json:"check"`
	Message   string  `json:"message"`
	Help      *string `json:"help"`
	Fix       *edit   `json:"fix"`
}

// An edit is a fix as other programs can carry it out.
type edit struct {
	Line      int    `json:"line"`
	Column    int    `json:"column"`
	EndLine   int    `json:"end_line"`
	EndColumn int    `json:"end_column"`
	Text      string `json:"text"`
}

// NewReport reports the problems in the order given.
func NewReport(problems []Problem) Report {
	r := Report{Problems: make([]reported, 0, len(problems))}
	r.Errors, r.Warnings = Count(problems)
	for _, p := range problems {
		begin, finish := p.Span.Begin(), p.Span.Finish()
		e := reported{
			File: p.Span.File.Path,
			Line: begin.Line, Column: begin.Column,
			EndLine: finish.Line, EndColumn: finish.Column,
			Severity: p.Severity.String(), Check: p.Check, Message: p.Message,
		}
		if p.Help != "" {
			e.Help = &p.Help
		}
		if p.Fix != nil {
			begin, finish := p.Fix.Span.Begin(), p.Fix.Span.Finish()
			e.Fix = &edit{begin.Line, begin.Column, finish.Line, finish.Column, p.Fix.Text}
		}
		r.Problems = append(r.Problems, e)
	}
	return r
}

// WriteJSON prints the report of the problems. Its error is the writer's.
func WriteJSON(w io.Writer, problems []Problem) error { return encode(w, NewReport(problems)) }

// encode writes a value as JSON that people can read too. "<" and "&" stay as
// they are, since this is not going into a web page.
func encode(w io.Writer, value any) error {
	encoder := json.NewEncoder(w)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	return encoder.Encode(value)
}
