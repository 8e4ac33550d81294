package render

import (
	"cmp"
	"slices"

	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/view"
	"guidecoat/render/markup"
)

// The strip shows every temporary fix as masking tape along the months; one that is still on is torn.

type fix struct {
	snag   *view.SnagView
	spells []view.Spell
	days   int
}

func (f fix) words() string { return title(note.PlainWords(f.snag.Words)) }

func (f fix) last() view.Spell { return f.spells[len(f.spells)-1] }

// fixes are the temporary fixes shown, in order, and the day up to which they are told.
func (s *site) fixes() (list []fix, until measure.Date) {
	until = cmp.Or(s.v.SoldOn, s.v.AsOf, s.v.Today)
	for _, x := range s.v.Snags {
		if isTemporary(x) {
			f := fix{snag: x, spells: x.Spells()}
			list = append(list, f)
			until = max(until, x.Cleared, x.Opened)
		}
	}
	for i := range list {
		for _, spell := range list[i].spells {
			list[i].days += spell.From.DaysUntil(cmp.Or(spell.To, until))
		}
	}
	slices.SortStableFunc(list, func(a, b fix) int { return cmp.Compare(a.spells[0].From, b.spells[0].From) })
	return list, until
}

func (s *voice) stripWords(list []fix) string {
	on, least, most := 0, list[0].days, list[0].days
	for _, f := range list {
		if f.snag.Open {
			on++
		}
		least, most = min(least, f.days), max(most, f.days)
	}
	fixes := s.Say("%d temporary fixes", len(list))
	switch {
	case on > 0:
		return s.Say("%s, %d still on.", fixes, on)
	case most == 0:
		return s.Say("%s, taken off again the same day.", fixes)
	case least == 0:
		return s.Say("%s, taken off again within %d days.", fixes, most)
	case least < most:
		return s.Say("%s, taken off again after %s to %d days.", fixes, s.Grouped(least), most)
	}
	return s.Say("%s, taken off again after %d days.", fixes, most)
}

// How many fixes a strip has room for, the newest, and about how many names of months.
const (
	stripFixes  = 24
	stripMonths = 5
)

var stripSection = markup.Around(`<section class="strip" aria-labelledby="_h-tape"><h2 id="_h-tape">{Temporary fixes over time}</h2>
`, "</section>\n")

// newestFixes are as many as there is room for, and what the strip of them says.
func (s *site) newestFixes(room int) (list []fix, words string) {
	list, words = s.taped, s.stripWords(s.taped)
	if left := len(list) - room; left > 0 {
		return list[left:], words + " " + s.Say("The newest %d are drawn.", room)
	}
	return list, words
}

// strip writes the temporary fixes along the months: a table of which one column is drawn.
func (p *leaf) strip() {
	if !hasStrip(p.site) {
		return
	}
	list, words := p.newestFixes(stripFixes)
	first, until := list[0].spells[0].From, p.tapedTo
	days := float64(max(1, first.DaysUntil(until)))
	x := func(d measure.Date) float64 { return float64(first.DaysUntil(d)) / days * 100 }
	p.Open(stripSection).Raw(`<p class="key">`).Text(words).Raw(`</p>
<table><thead><tr><th scope="col">{Temporary fix}</th><th scope="col"><svg class="months" role="img" aria-label="`).Text(p.Span(first, until)).Raw(`">`)
	for _, t := range p.monthTicks(first, until.AddDays(-int(days/12)), stripMonths, x) { // one at the very end has no room for its name
		p.Raw(`<line x1="`).Text(t.At).Raw(`%" x2="`).Text(t.At).Raw(`%" y2="26"/><text x="`).Text(t.At).Raw(`%" dx="6" y="18">`).Text(t.Words).Raw("</text>")
	}
	markup.Each(p.W, list, "</svg></th></tr></thead><tbody>\n", func(f fix) {
		p.Raw(`<tr><th scope="row">`)
		p.quoted(p.snag(p.path, f.snag), f.words()).Raw(" <small>")
		last := f.last()
		p.Text(p.ShortDay(f.spells[0].From, p.inYears)).Raw(" {to} ").Text(p.ShortDay(last.To, p.inYears)).If(last.To == 0, `<strong class="late">{now}</strong>`).Raw(", ").Text(p.Say("%d days", f.days)).
			Raw(`</small></th><td><svg class="on-tape" aria-hidden="true">`)
		for _, spell := range f.spells {
			from, to := x(spell.From), x(cmp.Or(spell.To, until))
			p.Raw(`<rect x="`).Text(number(from)).Raw(`%" width="`).Text(number(max(to-from, 1))).Raw(`%" y="3" height="20"/>`)
			if spell.To == 0 {
				p.Raw(`<svg x="`).Text(number(to)).Raw(`%"><path d="M0 3l-5 4 5 4-5 4 5 4-5 4"/></svg>`)
			}
		}
		p.Raw("</svg></td></tr>\n")
	}, "</tbody></table>")
	p.Close(stripSection)
}
