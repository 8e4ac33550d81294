package render

import (
	"cmp"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/money"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/speech"
	"guidecoat/journal/view"
	"guidecoat/render/tongue"
)

// What pages tell, in their language: figures, and words for what the view says in terms.

// A voice says in the language of the pages what they tell.
type voice struct {
	*tongue.Tongue
	currency money.Currency
	typed    string // the language of the notes; "" where it is that of the pages
}

// spoken is the language of the pages, "" where the notes have it too.
func (s *voice) spoken() string {
	return given(s.typed != "", s.Code)
}

// nbsp keeps a number and its unit on one line.
const nbsp = "\u00a0"

// title makes the first letter a capital.
func title(s string) string { return tongue.Title(s) }

// inYears tells whether short dates between two days need the year.
func inYears(first, last measure.Date) bool { return first.Time().Year() != last.Time().Year() }

// monthID writes "2026-04", for anchors.
func monthID(d measure.Date) string { return d.String()[:len("2026-04")] }

// sum writes money: "£1,250.00".
func (s *voice) sum(d decimal.Decimal) string { return s.Sum(d, s.currency) }

func (s *voice) signed(l *view.MoneyLine) string { return s.sum(l.Signed()) }

// some writes minutes, nothing for none.
func (s *voice) some(m measure.Minutes) string {
	return given(m != 0, s.Minutes(m))
}

// someSum writes money, nothing for none.
func (s *voice) someSum(d *decimal.Decimal) string {
	if d == nil || d.IsZero() {
		return ""
	}
	return s.sum(*d)
}

// given is words that are said only where something is so.
func given(so bool, words string) string { return pick.Either(so, words, "") }

// three writes "£260.00 · £340.00 · £520.00", or one sum where all are equal.
func (s *voice) three(t fact.Three) string {
	return pick.Either(t[0].Equal(t[2]), s.sum(t[1]), s.sum(t[0])+" · "+s.sum(t[1])+" · "+s.sum(t[2]))
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

// limits writes "8.0 to 10.5 mm", "minimum 8.0 mm", "limit 3 mm".
func (s *voice) limits(l note.Limits) string {
	switch {
	case l.Min != nil && l.Max != nil:
		return s.Say("%s to %s", *l.Min, *l.Max)
	case l.Min != nil:
		return s.Say("minimum %s", *l.Min)
	case l.Max != nil:
		return s.Say("limit %s", *l.Max)
	}
	return ""
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

func nonEmpty(list ...string) []string {
	return pick.Where(list, func(s string) bool { return s != "" })
}

func (s *voice) stageName(name string) string {
	return pick.Either(name == fact.Unstaged, s.Say("No stage"), title(name))
}

// placeName is what a system of the vehicle is called in the album.
func (s *voice) placeName(system string) string {
	return title(cmp.Or(s.Name(system), s.Say("The whole vehicle")))
}

// lineWords are what a line is for.
func (s *voice) lineWords(l *view.MoneyLine) string {
	return cmp.Or(l.Description, title(s.Word(l.Category)))
}

// scanned says what a scan found: "no faults", "2 codes".
func (s *voice) scanned(sc *view.ScanView) string {
	return pick.Either(sc.NoFaults, s.Say("no faults"), s.Say("%d codes", len(sc.Codes)))
}

// decode says what the structure of a fault code tells: "chassis, generic".
func (s *voice) decode(code string) string {
	system, owner, _ := strings.Cut(note.Decode(code), ", ")
	return strings.Join(nonEmpty(s.Word(system), s.Word(owner)), ", ")
}

func (s *voice) remark(e view.PartEvent) string { return cmp.Or(s.Tell(e.Said), e.Remark) }

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

// wordsOf are a snag's words, and eventWords what was said of it, in the language of the page.
func (s *voice) wordsOf(x *view.SnagView) string { return cmp.Or(s.Tell(x.Said), x.Words) }

func (s *voice) eventWords(e view.EventView) string { return cmp.Or(s.Tell(e.Said), e.Words) }
