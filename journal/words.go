package journal

import (
	"slices"
	"strings"

	"guidecoat/journal/note"
)

func contains[T comparable](list []T, v T) bool { return slices.Contains(list, v) }

func hasSpace(s string) bool { return strings.ContainsAny(s, " \t") }

// suggestID makes an id for a snag out of the first words that carry meaning.
func suggestID(words string) string {
	var kept []string
	for _, w := range strings.Fields(note.PlainWords(words)) {
		if w = note.SuggestID(w); len(w) > 2 && !contains([]string{"the", "and", "with", "until", "for", "has", "was"}, w) {
			kept = append(kept, w)
		}
		if len(kept) == 2 {
			return strings.Join(kept, "-")
		}
	}
	return strings.Join(append(kept, "fix"), "-")
}
