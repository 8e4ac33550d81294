package journal

import (
	"slices"
	"strings"
	"sync"

	"guidecoat/journal/near"
	"guidecoat/journal/note"
)

// offerNames puts into the help what only the whole build knows: that the words of a
// clause without its keyword are a supplier or a part.
func offerNames(b *Build) {
	names := sync.OnceValue(func() (list []string) {
		for _, s := range b.Sessions {
			for _, l := range s.Note.Lines {
				if name, ok := note.Arg[string](l, "from"); ok && !slices.Contains(list, name) {
					list = append(list, name)
				}
			}
		}
		return list
	})
	for i := range b.Faults {
		switch f := &b.Faults[i]; f.Flaw {
		case note.UnknownClause:
			if name := supplierIn(f.Why, names()); name != "" && slices.Contains(f.Near, "from") {
				f.Help, f.Word = "Write \"from "+name+"\".", f.Why
				f.Span.End = f.Span.Start + int32(len(f.Why)) // such a line is not joined of several
			} else if b.isPart(f.Why) && slices.Contains(f.Near, "for") {
				f.Help = "Write \"for " + f.Why + "\"."
			}
		case note.BadID: // `for battery, Tidewell Dismantlers`
			id, rest, _ := strings.Cut(strings.Replace(f.Word, " from ", ", ", 1), ",")
			if name := supplierIn(rest, names()); name != "" {
				f.Help = "Write \"" + note.SuggestID(id) + "; from " + name + "\"."
			}
		}
	}
}

// supplierIn returns the supplier that words are, or begin or are the beginning of.
func supplierIn(words string, names []string) string {
	said := near.Folded(words)
	const least = 4
	for _, name := range names {
		known := near.Folded(name)
		if len(said) >= least && len(known) >= least && (strings.HasPrefix(known, said) || strings.HasPrefix(said, known)) || near.IsSlip(name, words) {
			return name
		}
	}
	return ""
}
