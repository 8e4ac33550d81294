package journal

import (
	"bytes"
	"cmp"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"sync"

	"guidecoat/journal/money"
	"guidecoat/journal/near"
	"guidecoat/journal/note"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
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

// bidKeys are the keys of the card that a bid depends on.
var bidKeys = []string{"resale", "profit", "confidence", "bid increment", "fees", "vat", "stages", "hourly", "holding", "weeks", "pace", "worst"}

// CountsForBid tells whether a mistake there may change a bid.
func (c *Card) CountsForBid(at source.Span) bool {
	if at.File.Path != c.Note.File.Path || c.Exists && int(at.Start) >= c.Note.BodyStart() {
		return false
	}
	key := ""
	for _, f := range c.Note.Fields {
		if f.KeySpan.Start <= at.Start {
			key = f.Key
		}
	}
	known := slices.ContainsFunc(note.Card, func(k *note.Kind) bool { return k.Key == key })
	return !known || key == "currency" || slices.Contains(bidKeys, key)
}

type CannotReplace struct {
	Why, Word string
	From      []string // what may have been meant
}

// CardWith reads the card with a line of it replaced, or added: `KEY: VALUE` or `KEY: NAME: VALUE`.
func (b *Build) CardWith(fsys fs.FS, line string) (card *Build, added bool, bad *CannotReplace) {
	key, value, ok := strings.Cut(line, ":")
	key, value = strings.TrimSpace(key), strings.TrimSpace(value)
	switch {
	case !ok || value == "" || strings.ContainsAny(line, "\r\n"):
		return nil, false, &CannotReplace{Why: "it is no line of a job card such as \"resale: 4000 4600 5000\"", Word: line}
	case !slices.Contains(bidKeys, key):
		return nil, false, &CannotReplace{Why: fmt.Sprintf("no bid depends on a key called %q", key), Word: key, From: bidKeys}
	}
	n := b.Card.Note
	field, entry := n.Field(key), line
	at := source.Span{}
	if i := slices.IndexFunc(note.Card, func(k *note.Kind) bool { return k.Key == key }); note.Card[i].Shape != note.One {
		name, _, _ := strings.Cut(value, ":")
		entry = value
		var names []string
		for _, t := range field.Lines() {
			own, _, _ := strings.Cut(t.S, ":")
			if names = append(names, strings.TrimSpace(own)); names[len(names)-1] == strings.TrimSpace(name) {
				at = t.Whole()
			}
		}
		if like := near.Nearest(name, names); at.File == nil && like != "" {
			return nil, false, &CannotReplace{Why: fmt.Sprintf("nothing below %q is called %q", key, name), Word: name, From: names}
		}
	} else if field != nil {
		line, _, _ := bytes.Cut(n.File.Data[field.KeySpan.Start:], []byte("\n"))
		at = n.File.Span(int(field.KeySpan.Start), int(field.KeySpan.Start)+len(bytes.TrimSuffix(line, []byte("\r"))))
	}
	data := n.File.Data
	if added = at.File == nil; added {
		lead, begin := "", max(bytes.LastIndex(data[:n.BodyStart()], []byte("---")), 0)
		switch {
		case entry == line:
		case field == nil:
			lead = key + ":\n  "
		case field.Value.S != "":
			return nil, false, &CannotReplace{Why: fmt.Sprintf("%q has its one line beside it, so none can be added", key), Word: line}
		default:
			begin = bytes.IndexByte(data[field.KeySpan.End:], '\n') + int(field.KeySpan.End) + 1
			lead = "  " + map[bool]string{true: "- "}[field.Entries[0].Dash]
		}
		data = slices.Concat(data[:begin], []byte(lead+"\n"), data[begin:])
		at = n.File.Span(begin+len(lead), begin+len(lead))
	}
	data = slices.Concat(data[:at.Start], []byte(entry), data[at.End:])
	card = readCardAlone(fsys, b.Path, func(card *Build) { card.cardOf(source.NewFile(n.File.Path, data), true) })
	return card, added, nil
}

// vat is the rate that a clause such as `plus vat` adds, its own or the card's; a line without one is rejected.
func (b *Build) vat(c *Card, l *note.Line, clause string) (decimal.Decimal, bool) {
	if own, ok := note.Arg[decimal.Decimal](l, clause); ok {
		return own, true
	}
	if c.VAT != nil {
		return *c.VAT, true
	}
	if b.leaveOut(l); !c.badVAT() {
		b.fault(source.Fault{Flaw: MissingVAT, Span: l.Clause(clause).Span})
	}
	return decimal.Decimal{}, false
}

// Equipment is what the card says that the vehicle has, in small letters.
func (c *Card) Equipment() []string {
	d, _ := c.Detail("equipment")
	var list []string
	for word := range strings.SplitSeq(d.Value, ",") {
		if word = strings.Join(strings.Fields(strings.ToLower(word)), " "); word != "" {
			list = append(list, word)
		}
	}
	return list
}

// DueRules are the built-in rows whose equipment the vehicle has, unless the card has its own, then the card's.
func (b *Build) DueRules() []DueRule {
	own := map[string]bool{}
	for _, r := range b.Card.DueRules {
		own[r.Name] = true
	}
	has := b.Card.Equipment()
	rules := slices.DeleteFunc(slices.Clone(builtIn), func(r DueRule) bool {
		return own[r.Name] || r.Equipment != "" && !slices.Contains(has, r.Equipment)
	})
	return append(rules, b.Card.DueRules...)
}

// WorstOf is the severity of a check that is due or has failed, where no line says otherwise: the worst of its rows, or major.
func (b *Build) WorstOf(name string) note.Severity {
	worst := note.NoSeverity
	for _, r := range b.DueRules() {
		if r.Name == name {
			worst = max(worst, r.Severity)
		}
	}
	return cmp.Or(worst, note.Major)
}
