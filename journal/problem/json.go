package problem

import (
	"encoding/json"
	"io"
)

// WriteJSON prints the problems, in the order given, as the one JSON object that
// other programs are promised. Lines and columns count from 1, columns in code
// points, ends are exclusive; no problems is an empty list and no help is null.
// Its error is the writer's.
func WriteJSON(w io.Writer, problems []Problem) error {
	type entry struct {
		File      string  `json:"file"`
		Line      int     `json:"line"`
		Column    int     `json:"column"`
		EndLine   int     `json:"end_line"`
		EndColumn int     `json:"end_column"`
		Severity  string  `json:"severity"`
		Check     string  `json:"check"`
		Message   string  `json:"message"`
		Help      *string `json:"help"`
	}
	report := struct {
		Problems []entry `json:"problems"`
		Errors   int     `json:"errors"`
		Warnings int     `json:"warnings"`
	}{Problems: make([]entry, 0, len(problems))}
	report.Errors, report.Warnings = Count(problems)
	for _, p := range problems {
		begin, finish := p.Span.Begin(), p.Span.Finish()
		e := entry{
			File: p.Span.File.Path,
			Line: begin.Line, Column: begin.Column,
			EndLine: finish.Line, EndColumn: finish.Column,
			Severity: p.Severity.String(), Check: p.Check, Message: p.Message,
		}
		if p.Help != "" {
			e.Help = &p.Help
		}
		report.Problems = append(report.Problems, e)
	}
	return encode(w, report)
}

// encode writes a value as JSON that people can read too. "<" and "&" stay as
// they are, since this is not going into a web page.
func encode(w io.Writer, value any) error {
	encoder := json.NewEncoder(w)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	return encoder.Encode(value)
}
