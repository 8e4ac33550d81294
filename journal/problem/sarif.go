package problem

import (
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

// WriteSARIF prints the problems, in the order given, as a log of the Static
// Analysis Results Interchange Format 2.1.0 (OASIS), which code hosts and editors
// show beside the lines. Version is guidecoat's own. Its error is the writer's.
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

// literal returns the text such that no brace in it is taken for a placeholder
// (section 3.11.5).
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
