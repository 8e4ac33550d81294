package export

import (
	"guidecoat/journal/state"
)

// Snags is what `snags --json` prints.
type Snags struct {
	Snags []Snag `json:"snags"`
}

// A Snag is something outstanding, or something that was.
type Snag struct {
	Build     *string  `json:"build,omitempty"` // in a garage only: the build's folder
	ID        *string  `json:"id"`
	Kind      *string  `json:"kind"` // null but for notes
	Severity  string   `json:"severity"`
	Text      string   `json:"text"` // plain, without markup
	Stage     *string  `json:"stage"`
	System    *string  `json:"system"`
	Source    string   `json:"source"`
	State     string   `json:"state"` // open or cleared
	Opened    string   `json:"opened"`
	Cleared   *string  `json:"cleared"`
	Due       *string  `json:"due"` // a date, or an odometer such as "148330 km"
	Overdue   bool     `json:"overdue"`
	Doable    bool     `json:"doable"`
	NotBefore *string  `json:"not_before"` // the odometer from which it can be done
	WaitsFor  []string `json:"waits_for"`
	Minutes   *int     `json:"minutes"`
	Disclose  bool     `json:"disclose"`
	File      string   `json:"file"`
	Line      int      `json:"line"`
	ClearedBy *Place   `json:"cleared_by"` // the line that settled it
}

// A Place is a line of a note.
type Place struct {
	File string `json:"file"`
	Line int    `json:"line"`
}

// Add adds a snag. Build is the folder of its build in a garage, otherwise "".
func (l *Snags) Add(s *state.Snag, build string) {
	out := Snag{
		Build: text(build), ID: text(s.ID), Kind: text(s.Kind), Severity: s.Severity.String(), Text: s.PlainWords(),
		Stage: text(s.Stage), System: text(s.System), Source: string(s.Source), State: "open",
		Opened: s.Opened.String(), Cleared: text(s.Cleared.String()), Due: text(DueText(s)),
		Overdue: s.Overdue, Doable: s.Doable, WaitsFor: list(s.WaitsFor), Disclose: s.Disclose,
		File: s.Span.File.Path, Line: s.Line(),
	}
	if !s.Open {
		out.State = "cleared"
	}
	if by := s.ClearedBy(); by != nil {
		out.ClearedBy = &Place{by.Span.File.Path, by.Span.Begin().Line}
	}
	if s.NotBefore != nil {
		out.NotBefore = text(s.NotBefore.String())
	}
	if s.Takes > 0 {
		out.Minutes = new(int(s.Takes))
	}
	l.Snags = append(l.Snags, out)
}

// NewSnags returns the list of no snags.
func NewSnags() *Snags { return &Snags{Snags: []Snag{}} }

// DueText is when a snag is due: a date, or an odometer reading; "" for neither.
func DueText(s *state.Snag) string {
	if s.DueAt != nil {
		return s.DueAt.String()
	}
	return s.Due.String()
}
