package export

import (
	"cmp"

	"guidecoat/journal/note"
	"guidecoat/journal/view"
)

// SnagOf is something outstanding, or something that was. Folder is that of its build in a
// garage, otherwise "".
func SnagOf(s *view.SnagView, folder string) Object {
	state, cleared := "open", s.Cleared
	if !s.Open {
		state = "cleared"
	}
	if s.Undated {
		cleared = 0
	}
	var notBefore, takes, clearedBy any
	if s.NotBefore != nil {
		notBefore = s.NotBefore.String()
	}
	if s.Takes > 0 {
		takes = s.Takes
	}
	if s.ClearedAt != "" {
		clearedBy = Object{{"file", s.ClearedAt}, {"line", s.ClearedRow}}
	}
	return inFolder(folder, figures{}.object(Object{
		{"id", text(s.ID)},
		{"kind", text(s.Kind)}, // null but for notes
		{"severity", s.Severity.String()},
		{"text", note.PlainWords(cmp.Or(s.Typed, s.Text))}, // without markup
		{"stage", text(s.Stage)},
		{"system", text(s.System)},
		{"source", string(s.Source)},
		{"state", state},
		{"opened", s.Opened.String()},
		{"cleared", cleared},       // null while it is open, and where nobody wrote the day
		{"due", text(s.DueText())}, // a date, or an odometer such as "148330 km"
		{"overdue", s.Overdue},
		{"doable", s.Doable},
		{"not_before", notBefore}, // the odometer from which it can be done
		{"waits_for", s.WaitsFor},
		{"minutes", takes},
		{"disclose", s.Disclose},
		{"session", text(s.Session)}, // the one it was opened in
		{"file", s.Note},
		{"line", s.Line},
		{"cleared_by", clearedBy}, // the line that settled it
	}...))
}
