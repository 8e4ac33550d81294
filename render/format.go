package render

import (
	"slices"
	"strconv"
	"strings"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/speech"
	"guidecoat/journal/view"
	"guidecoat/render/tongue"

	"github.com/shopspring/decimal"
)

// A voice says in the language of the pages what they tell.
type voice struct {
	*tongue.Tongue
	currency money.Currency
	typed    string // the language of the notes; "" where it is that of the pages
}

func voiceOf(v *view.View, o Options) *voice {
	x := &voice{tongue.Of(v.Language, o.Theme.Words), v.Currency, v.Typed}
	if x.typed == x.Code {
		x.typed = ""
	}
	return x
}

// nbsp keeps a number and its unit on one line.
const nbsp = "\u00a0"

// title makes the first letter a capital.
func title(s string) string { return tongue.Title(s) }

// inYears tells whether short dates between two days need the year.
func inYears(first, last measure.Date) bool { return first.Time().Year() != last.Time().Year() }

// monthID writes "2026-04", for anchors.
func monthID(d measure.Date) string { return d.String()[:len("2026-04")] }

// year writes "2026", for names of pages.
func year(d measure.Date) string { return d.Time().Format("2006") }

// sum writes money: "£1,250.00".
func (s *voice) sum(d decimal.Decimal) string { return s.Sum(d, s.currency) }

func (s *voice) signed(l *view.MoneyLine) string { return s.sum(l.Signed()) }

// some writes minutes, nothing for none.
func (s *voice) some(m measure.Minutes) string {
	if m == 0 {
		return ""
	}
	return s.Minutes(m)
}

// three writes "£260.00 · £340.00 · £520.00", or one sum where all are equal.
func (s *voice) three(t fact.Three) string {
	if t[0].Equal(t[2]) {
		return s.sum(t[1])
	}
	return s.sum(t[0]) + " · " + s.sum(t[1]) + " · " + s.sum(t[2])
}

// round writes money for axes and headlines, without minor units: "£1,250".
func (s *voice) round(d decimal.Decimal) string {
	return s.Sum(d, money.Currency{Code: s.currency.Code})
}

func (s *voice) quantity(q measure.Quantity) string { return s.Figure(q.String()) }

// chance writes a probability: "about 72 in 100", never more certain than it is.
func (s *voice) chance(p float64) string {
	switch n := int(p*100 + 0.5); {
	case p > 0 && n == 0:
		return s.Say("under 1 in 100")
	case p < 1 && n == 100:
		return s.Say("over 99 in 100")
	default:
		return s.Say("%d in 100", n)
	}
}

// number writes a coordinate of a drawing, rounded to what can be seen.
func number(f float64) string {
	s := strconv.FormatFloat(f, 'f', 2, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	return pick.Either(s == "-0", "0", s)
}

// shorten cuts words off so that about n characters are left.
func shorten(s string, n int) string {
	runes := []rune(s)
	if len(runes) <= n {
		return s
	}
	cut := string(runes[:n])
	if at := strings.LastIndexByte(cut, ' '); at > n/2 {
		cut = cut[:at]
	}
	return strings.TrimRight(cut, " ,;:.–-") + "…"
}

// lastsYears tells whether what the view tells lies in more than one year.
func (s *site) lastsYears() bool {
	days := pick.Map(s.v.Sessions, func(x *view.SessionView) measure.Date { return x.Date })
	for _, x := range s.v.Parts {
		days = append(days, pick.Map(x.Events, func(e view.PartEvent) measure.Date { return e.Date })...)
	}
	if s.v.Money != nil {
		days = append(days, pick.Map(s.v.Money.Lines, func(l *view.MoneyLine) measure.Date { return l.Date })...)
	}
	return len(days) > 0 && inYears(slices.Min(days), slices.Max(days))
}

// withheldWords count what is outstanding and not described, the worst first.
func (s *voice) withheldWords(bySeverity map[note.Severity]int) []string {
	var list []string
	for severity := note.Dangerous; severity >= note.Minor; severity-- {
		if n := bySeverity[severity]; n > 0 {
			list = append(list, s.Say("%d %s items not described here", n, speech.Term(severity.String())))
		}
	}
	return list
}
