package journal

import (
	"slices"
	"strings"
	"sync"

	"guidecoat/journal/money"
	"guidecoat/journal/near"
	"guidecoat/journal/note"
)

// What the card says wrongly is reported there, and lines that need it are left out: one mistake, one message.

func (c *Card) unread() bool { return c.Note.Unread || len(c.Note.File.Data) == 0 }

// Sound tells whether every line of the card counts.
func (c *Card) Sound() bool {
	return !c.unread() && c.Currency.Code != "" && c.Note.Lost == 0 && !slices.ContainsFunc(c.Note.Lines, func(l *note.Line) bool { return l.Bad })
}

// badVAT tells whether the card names a rate of tax that could not be read, or by a misspelt key.
func (c *Card) badVAT() bool {
	misspelt := func(f note.Field) bool { return f.Key != "vat" && near.Nearest(f.Key, []string{"vat"}) != "" }
	return c.unread() || slices.ContainsFunc(c.Note.Fields, misspelt) || c.Note.Field("vat") != nil && c.Note.Line("vat") == nil
}

// badRate tells whether the card may name a rate of that currency in a line that could not be read.
func (b *Build) badRate(c *Card, code string) bool {
	if c.unread() {
		return true
	}
	left := 0 // lines below the key of which nothing is known
	for i := range c.Note.Fields {
		if f := &c.Note.Fields[i]; f.Key == "rates" {
			left += max(len(f.Entries), 1)
		}
	}
	for _, l := range c.Note.Lines {
		if l.Kind.Key != "rates" {
			continue
		}
		left--
		if b.LeftOut(l) && (l.Name == code || !money.IsCode(l.Name)) {
			return true
		}
	}
	return left > 0
}

// offerNames helps where a clause lacks its keyword: only the whole build knows that its words are a name.
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
