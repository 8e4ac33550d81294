package problem

import (
	"encoding/json"
	"io"
	"net/url"
	"strings"

	"guidecoat/journal/source"
)

// A Rule is a check as SARIF tells of it, whether or not it found something.
type Rule struct {
	ID          string // the check's name
	Short, Full string // one sentence; a paragraph, or empty
	Severity    Severity
}

// WriteSARIF prints the problems as SARIF 2.1.0 (OASIS). Version is guidecoat's own. Its error is the writer's.
func WriteSARIF(w io.Writer, problems []Problem, rules []Rule, version string) error {
	tool := sarifDriver{Name: "guidecoat", Version: version, Rules: make([]sarifRule, 0, len(rules))}
	index := make(map[string]*int, len(rules))
	for i, r := range rules {
		rule := sarifRule{ID: r.ID, Short: sarifText{literal(r.Short)}}
		if r.Full != "" {
			rule.Full = &sarifText{literal(r.Full)}
		}
		rule.Default.Level = level(r.Severity)
		tool.Rules = append(tool.Rules, rule)
		index[r.ID] = &i
	}
	results := make([]sarifResult, 0, len(problems))
	for _, p := range problems {
		text := p.Message
		if p.Help != "" {
			text += ". " + p.Help
		}
		result := sarifResult{Rule: p.Check, Index: index[p.Check], Level: level(p.Severity), Message: sarifText{literal(text)}}
		file := sarifArtifact{URI: (&url.URL{Path: p.Span.File.Path}).String()}
		result.Locations[0].Physical = sarifPlace{Artifact: file, Region: regionOf(p.Span)}
		if p.Fix != nil {
			change := sarifChange{Artifact: file}
			change.Replacements[0] = sarifReplacement{regionOf(p.Fix.Span), sarifText{p.Fix.Text}}
			result.Fixes = []sarifFix{{[1]sarifChange{change}}}
		}
		results = append(results, result)
	}
	return encode(w, sarifLog{
		Schema:  "https://docs.oasis-open.org/sarif/sarif/v2.1.0/os/schemas/sarif-schema-2.1.0.json",
		Version: "2.1.0",
		Runs:    [1]sarifRun{{Tool: sarifTool{tool}, Columns: "unicodeCodePoints", Results: results}},
	})
}

func regionOf(s source.Span) sarifRegion {
	begin, finish := s.Begin(), s.Finish()
	return sarifRegion{begin.Line, begin.Column, finish.Line, finish.Column}
}

// level returns what SARIF calls a severity (section 3.27.10).
func level(s Severity) string {
	if s == Information {
		return "note"
	}
	return s.String()
}

// literal keeps braces from being taken for placeholders (section 3.11.5).
func literal(text string) string { return strings.NewReplacer("{", "{{", "}", "}}").Replace(text) }

// The parts of a log that are written, by their names in the standard.
type (
	sarifLog struct {
		Schema  string      `json:"$schema"`
		Version string      `json:"version"`
		Runs    [1]sarifRun `json:"runs"`
	}
	sarifRun struct {
		Tool    sarifTool     `json:"tool"`
		Columns string        `json:"columnKind"`
		Results []sarifResult `json:"results"` // an empty list says that all was looked at and nothing found
	}
	sarifTool struct {
		Driver sarifDriver `json:"driver"`
	}
	sarifDriver struct {
		Name    string      `json:"name"`
		Version string      `json:"version"`
		Rules   []sarifRule `json:"rules"`
	}
	sarifRule struct {
		ID      string     `json:"id"`
		Short   sarifText  `json:"shortDescription"`
		Full    *sarifText `json:"fullDescription,omitempty"`
		Default struct {
			Level string `json:"level"`
		} `json:"defaultConfiguration"`
	}
	sarifText struct {
		Text string `json:"text"`
	}
	sarifResult struct {
		Rule      string           `json:"ruleId"`
		Index     *int             `json:"ruleIndex,omitempty"` // nil where the rule is not in the list
		Level     string           `json:"level"`
		Message   sarifText        `json:"message"`
		Locations [1]sarifLocation `json:"locations"`
		Fixes     []sarifFix       `json:"fixes,omitempty"`
	}
	sarifFix struct {
		Changes [1]sarifChange `json:"artifactChanges"`
	}
	sarifChange struct {
		Artifact     sarifArtifact       `json:"artifactLocation"`
		Replacements [1]sarifReplacement `json:"replacements"`
	}
	sarifReplacement struct {
		Deleted  sarifRegion `json:"deletedRegion"`
		Inserted sarifText   `json:"insertedContent"`
	}
	sarifLocation struct {
		Physical sarifPlace `json:"physicalLocation"`
	}
	sarifPlace struct {
		Artifact sarifArtifact `json:"artifactLocation"`
		Region   sarifRegion   `json:"region"`
	}
	sarifArtifact struct {
		URI string `json:"uri"`
	}
	sarifRegion struct {
		StartLine   int `json:"startLine"`
		StartColumn int `json:"startColumn"`
		EndLine     int `json:"endLine"`
		EndColumn   int `json:"endColumn"`
	}
)

// A Report is the JSON object that programs are promised. Lines and columns count from 1, in code points, ends exclusive.
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

// encode writes JSON that people can read. "<" and "&" stay: this goes into no web page.
func encode(w io.Writer, value any) error {
	encoder := json.NewEncoder(w)
	encoder.SetEscapeHTML(false)
	encoder.SetIndent("", "  ")
	return encoder.Encode(value)
}
