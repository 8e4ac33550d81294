package state

import (
	"fmt"
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"time"

	"guidecoat/journal/trial"
)

// The generator of random builds for the oracle: it writes the notes and keeps
// what it wrote as plain figures.

var currencyDigits = map[string]int{"GBP": 2, "EUR": 2, "USD": 2, "JPY": 0, "KWD": 3, "SEK": 2, "TND": 3, "ISK": 0}

func newOracle(seed uint64) *oracle {
	o := &oracle{rng: rand.New(rand.NewPCG(seed, 20260411)), digits: currencyDigits, staged: map[string]string{}}
	o.home = oneOf(o, "GBP", "GBP", "EUR", "JPY", "KWD")
	cardRates := map[string]figure{}
	for _, c := range []string{"USD", "EUR", "JPY", "TND", "ISK"} {
		if c != o.home && o.chance(2) {
			cardRates[c] = o.rate()
		}
	}
	cardVAT := o.vat()
	o.stages = []string{"buying", "rear axle", "paint & prep", "last - checks"}[:1+o.rng.IntN(4)]
	o.parts = []string{"rear-beam", "hub", "abs-ring-left", "wing-2"}[:1+o.rng.IntN(4)]
	onCard := o.chance(2)

	var c strings.Builder
	fmt.Fprintf(&c, "-- build.md --\n---\nbuild: Seed %d\ncurrency: %s\nvat: %s%%\n", seed, o.home, cardVAT)
	if len(cardRates) > 0 {
		c.WriteString("rates:\n")
		for _, code := range slices.Sorted(maps.Keys(cardRates)) {
			fmt.Fprintf(&c, "  %s: %s\n", code, cardRates[code])
		}
	}
	if onCard {
		c.WriteString("stages:\n")
		for _, s := range o.stages {
			fmt.Fprintf(&c, "  - \"%s: budget 5\"\n", s)
		}
	}
	c.WriteString("---\n")
	g := &generator{oracle: o, cardVAT: cardVAT, cardRates: cardRates, onCard: onCard}
	o.files = c.String()
	sessions := 1 + o.rng.IntN(8)
	for i := range sessions {
		o.files += g.session(i)
	}
	return o
}

type generator struct {
	*oracle
	cardVAT   figure
	cardRates map[string]figure
	onCard    bool

	date, stage string
}

func oneOf[T any](o *oracle, list ...T) T { return list[o.rng.IntN(len(list))] }

// chance is true once in n times.
func (o *oracle) chance(n int) bool { return o.rng.IntN(n) == 0 }

func (o *oracle) day() string {
	return time.Date(2026, 3, 1+o.rng.IntN(60), 0, 0, 0, 0, time.UTC).Format(time.DateOnly)
}

func (o *oracle) someDates() []string {
	return []string{o.day(), o.day(), o.day(), "2025-01-01", "2027-01-01"}
}

func (o *oracle) rate() figure {
	return oneOf(o, figure{86, 2}, figure{11734, 4}, figure{9, 0}, figure{1000001, 6}, figure{int64(1 + o.rng.IntN(99999)), 4}, figure{5, 1})
}

func (o *oracle) vat() figure {
	return oneOf(o, figure{20, 0}, figure{5, 0}, figure{175, 1}, figure{77, 1}, figure{100, 0}, figure{int64(1 + o.rng.IntN(9999)), 2})
}

// session writes one note.
func (g *generator) session(i int) string {
	g.date, g.stage = g.day(), ""
	name := fmt.Sprintf("%s %d.md", g.date, i)
	var front []string
	if g.chance(3) {
		name = fmt.Sprintf("notes/n%d.md", i)
		front = append(front, "date: "+g.date)
	}
	if !g.chance(4) {
		g.stage = oneOf(g.oracle, g.stages...)
		front = append(front, "stage: "+g.stage)
	}
	if i == 0 { // written first, but of any date
		g.since = g.date
		front = append(front, g.declare())
	}
	front = append(front, g.many("cost", func() string { return g.moneyLine(false) })...)
	front = append(front, g.many("credit", func() string { return g.moneyLine(true) })...)
	front = append(front, g.many("time", g.timeLine)...)
	g.rng.Shuffle(len(front), func(a, b int) { front[a], front[b] = front[b], front[a] })
	return trial.Session(name, strings.Join(front, "\n"), "# Session\n\nWords.")
}

// declare names all parts, some with a stage.
func (g *generator) declare() string {
	lines := "parts:"
	for _, part := range g.parts {
		lines += "\n  " + part + ": needed a part"
		if g.chance(2) {
			g.staged[part] = oneOf(g.oracle, g.stages...)
			lines += "; stage " + g.staged[part]
		}
	}
	return lines
}

// many writes no, one or several lines below a key.
func (g *generator) many(key string, line func() string) []string {
	switch n := g.rng.IntN(6); n {
	case 0:
		return nil
	case 1:
		return []string{key + ": " + line()}
	default:
		var lines []string
		for range n {
			lines = append(lines, "  - "+line())
		}
		return []string{key + ":\n" + strings.Join(lines, "\n")}
	}
}

// moneyLine makes up one cost or credit. One in twelve carries a mistake.
func (g *generator) moneyLine(credit bool) string {
	l := &oracleLine{credit: credit, date: g.date, stage: g.stage}
	code := g.home
	if g.chance(4) {
		code = oneOf(g.oracle, "EUR", "USD", "JPY", "KWD", "TND", "ISK", "GBP")
	}
	l.digits = g.digits[code]
	head := g.amount(l, code)
	var clauses []string
	add := func(format string, args ...any) { clauses = append(clauses, fmt.Sprintf(format, args...)) }

	if code != g.home {
		if rate, ok := g.cardRates[code]; ok && !g.chance(3) {
			l.rate = &rate
		} else {
			rate := g.rate()
			l.rate = &rate
			add("rate %s", rate)
		}
	}
	if g.chance(3) {
		l.part = oneOf(g.oracle, g.parts...)
		add("for %s", l.part)
	}
	if stage := g.staged[l.part]; stage != "" {
		l.stage = stage
	}
	if g.chance(4) {
		l.stage = oneOf(g.oracle, g.stages...)
		add("stage %s", l.stage)
	}
	if g.chance(4) {
		l.date = g.day()
		add("on %s", l.date)
	}
	if g.chance(3) {
		l.supplier = oneOf(g.oracle, "Mill Lane", "Tidewell & Sons", "Öl-Müller")
		add("from %s", l.supplier)
	}
	if g.chance(5) {
		add("private")
	}
	if g.chance(5) {
		add("receipt %d", g.rng.IntN(1000))
	}
	if credit {
		l.category = "refund"
		if g.chance(2) {
			l.category = oneOf(g.oracle, "refund", "spares", "scrap")
			add("as %s", l.category)
		}
	} else {
		g.costClauses(l, add)
	}
	g.rng.Shuffle(len(clauses), func(a, b int) { clauses[a], clauses[b] = clauses[b], clauses[a] })
	description := oneOf(g.oracle, "", " rear axle beam, used", " gasket set (2)", " #320 grit", " bolts: M8", " ölfilter — neu", " x-ring seal")
	if build, garage := l.sums(g.digits[g.home]); build.Sign() == 0 && garage.Sign() == 0 {
		g.left++ // works out to zero
		return g.join(head+description, clauses)
	}
	if g.chance(12) {
		g.left++
		return g.broken(head, description, clauses, credit)
	}
	g.money = append(g.money, l)
	return g.join(head+description, clauses)
}

func (g *generator) costClauses(l *oracleLine, add func(string, ...any)) {
	l.category = "sundries"
	if l.part != "" {
		l.category = "parts"
	}
	if g.chance(2) {
		l.category = oneOf(g.oracle, "vehicle", "fees", "transport", "parts", "paint", "consumables", "labour", "tools", "sundries")
		add("as %s", l.category)
	}
	l.tools = l.category == "tools"
	switch g.rng.IntN(8) {
	case 0:
		vat := g.vat()
		l.vat = &vat
		add("plus vat %s%%", vat)
	case 1, 2:
		l.vat = &g.cardVAT
		add("plus vat")
	}
	if g.chance(5) {
		switch g.rng.IntN(3) {
		case 0:
			l.shareDen = int64(1 + g.rng.IntN(12))
			l.shareNum = 1 + g.rng.Int64N(l.shareDen)
			add("share %d/%d", l.shareNum, l.shareDen)
		case 1:
			l.shareNum, l.shareDen = int64(1+g.rng.IntN(100)), 100
			add("share %d%%", l.shareNum)
		default:
			l.shareNum, l.shareDen = int64(1+g.rng.IntN(999)), 1000
			add("share %s%%", figure{l.shareNum, 1})
		}
	}
}

// amount makes up a price, in one of the forms in which it may be written.
func (g *generator) amount(l *oracleLine, code string) string {
	prefix := ""
	l.price = figure{int64(1 + g.rng.IntN(999999)), int64(g.rng.IntN(l.digits + 1))}
	if g.chance(3) {
		l.price.value = int64(1 + g.rng.IntN(999))
	}
	if g.chance(3) {
		l.quantity = &figure{int64(1 + g.rng.IntN(40)), int64(g.rng.IntN(3))}
		l.price.places = int64(g.rng.IntN(l.digits + 3))
		prefix = l.quantity.String() + oneOf(g.oracle, " x ", " × ", "x ", "×", " x")
	}
	number := l.price.String()
	if whole, rest, _ := strings.Cut(number, "."); len(whole) > 3 && len(whole) < 7 && g.chance(2) {
		number = whole[:len(whole)-3] + "," + whole[len(whole)-3:]
		if rest != "" {
			number += "." + rest
		}
	}
	symbol := map[string]string{"GBP": "£", "EUR": "€"}[code]
	if code == g.home && code == "JPY" {
		symbol = "¥"
	}
	forms := []string{prefix + number + " " + code, prefix + number + code, prefix + code + " " + number}
	if strings.HasSuffix(prefix, " x") || prefix == "" {
		forms = append(forms, prefix+code+number)
	}
	if symbol != "" {
		forms = append(forms, prefix+symbol+number, prefix+symbol+" "+number, prefix+symbol+number+" "+code)
	}
	if code == g.home {
		forms = append(forms, prefix+number, prefix+number, prefix+number)
	}
	return oneOf(g.oracle, forms...)
}

// join puts a line together with the liberties the form allows.
func (g *generator) join(head string, clauses []string) string {
	for _, c := range clauses {
		head += oneOf(g.oracle, "; ", ";", " ; ", ";  ") + c
	}
	if g.chance(10) {
		head += oneOf(g.oracle, ";", " ; ;")
	}
	if g.chance(6) && !strings.Contains(head, "\"") {
		head = "\"" + head + "\""
	}
	return head
}

// broken makes a line that must be left out whole.
func (g *generator) broken(head, description string, clauses []string, credit bool) string {
	switch g.rng.IntN(9) {
	case 0:
		return g.join(head+description, append(clauses, "form Mill Lane"))
	case 1:
		return g.join("-"+head, clauses)
	case 2:
		return g.join("12,50"+description, clauses)
	case 3:
		return g.join(head+description, append(clauses, "private", "private"))
	case 4:
		return g.join(head+description, append(clauses, "receipt"))
	case 5:
		return g.join("5 AUD"+description, without(clauses, "rate"))
	case 6:
		return g.join(head+description, append(without(clauses, "for"), "for nothing-known"))
	case 7:
		if g.onCard {
			return g.join(head+description, append(without(clauses, "stage"), "stage buyign"))
		}
	}
	if credit {
		return g.join(head+description, append(clauses, "share 1/2"))
	}
	return g.join(head+description, append(without(clauses, "on"), "on 2026-02-30"))
}

func without(clauses []string, word string) []string {
	var list []string
	for _, c := range clauses {
		if !strings.HasPrefix(c, word+" ") {
			list = append(list, c)
		}
	}
	return list
}

// timeLine makes up a line of work.
func (g *generator) timeLine() string {
	h, m := g.rng.IntN(9), g.rng.IntN(60)
	if h+m == 0 {
		m = 1
	}
	minutes := h*60 + m
	var head string
	switch g.rng.IntN(7) {
	case 0:
		head = fmt.Sprintf("%dh%02d", h, m)
	case 1:
		head = fmt.Sprintf("%d:%02d", h, m)
	case 2:
		head = fmt.Sprintf("PT%dH%dM", h, m)
	case 3:
		head = fmt.Sprintf("%d min", minutes)
	case 4:
		start := g.rng.IntN(24 * 60)
		end := (start + minutes) % (24 * 60)
		head = fmt.Sprintf("%02d:%02d-%02d:%02d", start/60, start%60, end/60, end%60)
	case 5: // 0.3 h are 18 minutes
		tenths := 1 + g.rng.IntN(90)
		head, minutes = fmt.Sprintf("%d.%dh", tenths/10, tenths%10), tenths*6
	default:
		head = fmt.Sprintf("%dh %dm", h, m)
	}
	w := oracleWork{date: g.date, stage: g.stage, minutes: minutes}
	var clauses []string
	if g.chance(4) {
		hands := 1 + g.rng.IntN(9)
		w.minutes *= hands
		clauses = append(clauses, fmt.Sprintf("hands %d", hands))
	}
	if g.chance(4) {
		w.stage = oneOf(g.oracle, g.stages...)
		clauses = append(clauses, "stage "+w.stage)
	}
	if g.chance(12) {
		g.left++
		return g.join(head+" work", append(without(clauses, "hands"), "hands 12"))
	}
	g.work = append(g.work, w)
	return g.join(head+oneOf(g.oracle, "", " beam out", " bolts cut, swearing"), clauses)
}
