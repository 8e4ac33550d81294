package journal

import (
	"guidecoat/journal/money"
	"guidecoat/journal/near"
	"guidecoat/journal/note"
	"slices"
)

// What the job card says wrongly is reported there. Lines that need it are left out,
// and it is not said of each that the card lacks it: one mistake, one message.

// unread tells whether nothing of the card could be read.
func (c *Card) unread() bool { return c.Note.Unread || len(c.Note.File.Data) == 0 }

// Sound tells whether every line of the card counts.
func (c *Card) Sound() bool {
	return !c.unread() && c.Currency.Code != "" && c.Note.Lost == 0 && !slices.ContainsFunc(c.Note.Lines, func(l *note.Line) bool { return l.Bad })
}

// badVAT tells whether the card names a rate of tax that could not be read, or under
// another spelling of its key.
func (c *Card) badVAT() bool {
	misspelt := func(f note.Field) bool { return f.Key != "vat" && near.Nearest(f.Key, []string{"vat"}) != "" }
	return c.unread() || slices.ContainsFunc(c.Note.Fields, misspelt) || c.Note.Field("vat") != nil && c.Note.Line("vat") == nil
}

// badRate tells whether the card may name a rate of that currency, but in a line
// that could not be read.
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
