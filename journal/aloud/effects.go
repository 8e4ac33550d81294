package aloud

import (
	"slices"
	"strings"

	"guidecoat/journal/fact"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/state"
)

// effects tell what the line does to snags.
func (t *telling) effects(list []happening) {
	var opens, clears []string
	for _, h := range list {
		name := h.ID
		if name == "" {
			name = h.PlainWords()
		}
		switch {
		case h.what == fact.Cleared:
			clears = append(clears, name)
		case t.line != nil && t.line.Kind.Key != "checks" && h.FromWork():
			t.MakesDue = append(t.MakesDue, name)
		case h.what == fact.Opened, h.what == fact.Reopened:
			opens = append(opens, name)
			t.Severity = h.Severity.String()
		}
	}
	t.Opens, t.Clears = strings.Join(opens, ", "), strings.Join(clears, ", ")
	if len(t.MakesDue) > 0 {
		slices.Sort(t.MakesDue)
		t.MakesDue = slices.Compact(t.MakesDue)
		verb := pick.Either(len(t.MakesDue) > 1, " fall due", " falls due")
		due := strings.Join(t.MakesDue, ", ") + verb
		if len(t.pieces) > 0 {
			t.pieces[0] += " → " + due
		} else {
			t.say(due)
		}
	}
	switch {
	case t.Opens == "" && t.Clears == "":
		return
	case t.Opens == t.Clears:
		t.say("opened and cleared here: " + t.Opens)
	case t.Opens != "":
		t.say("opens " + t.Opens)
		fallthrough
	default:
		if t.Clears != "" {
			t.say("clears " + t.Clears)
		}
	}
	for _, h := range list {
		if t.Opens != "" && t.Clears == "" && (h.what == fact.Opened || h.what == fact.Reopened) {
			t.say(stops(h.Snag))
			return
		}
	}
}

// stops tells what a snag stands in the way of while it is open.
func stops(s *state.Snag) string {
	switch {
	case s.ToDrive == note.Dangerous:
		return "stops driving and the sale"
	case s.Kind == "temporary", s.Severity >= note.Major, s.Source == fact.FromSurcharge:
		return "stops the sale"
	case s.Disclose:
		return "the buyer will be told"
	}
	return "to be cleared or disclosed before the sale"
}
