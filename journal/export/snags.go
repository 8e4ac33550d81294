package export

import (
	"cmp"

	"guidecoat/journal/note"
	"guidecoat/journal/view"
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
	Cleared   *string  `json:"cleared"` // null while it is open, and where nobody wrote the day
	Due       *string  `json:"due"`     // a date, or an odometer such as "148330 km"
	Overdue   bool     `json:"overdue"`
	Doable    bool     `json:"doable"`
	NotBefore *string  `json:"not_before"` // the odometer from which it can be done
	WaitsFor  []string `json:"waits_for"`
	Minutes   *int     `json:"minutes"`
	Disclose  bool     `json:"disclose"`
	Session   *string  `json:"session"` // the one it was opened in
	File      string   `json:"file"`
	Line      int      `json:"line"`
	ClearedBy *Place   `json:"cleared_by"` // the line that settled it
}

// A Place is a line of a note.
type Place struct {
	File string `json:"file"`
	Line int    `json:"line"`
}

// Add adds a snag. Folder is that of its build in a garage, otherwise "".
func (l *Snags) Add(s *view.SnagView, folder string) {
	out := Snag{
		Build: text(folder), ID: text(s.ID), Kind: text(s.Kind), Severity: s.Severity.String(), Text: note.PlainWords(cmp.Or(s.Typed, s.Text)),
		Stage: text(s.Stage), System: text(s.System), Source: string(s.Source), State: "open",
		Opened: s.Opened.String(), Cleared: text(s.Cleared.String()), Due: text(s.DueText()),
		Overdue: s.Overdue, Doable: s.Doable, WaitsFor: list(s.WaitsFor), Disclose: s.Disclose, Session: text(s.Session),
		File: s.Note, Line: s.Line,
	}
	if !s.Open {
		out.State = "cleared"
	}
	if s.Undated {
		out.Cleared = nil
	}
	if s.ClearedAt != "" {
		out.ClearedBy = &Place{s.ClearedAt, s.ClearedRow}
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
