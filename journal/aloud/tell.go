package aloud

import (
	"cmp"
	"strconv"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"

	"github.com/shopspring/decimal"
)

// A telling is one line on its way to words.
type telling struct {
	*reader
	*Reading
	line   *note.Line
	pieces []string
	said   map[string]bool // the clauses that need no more words
}

func (t *telling) say(piece string) {
	if piece != "" {
		t.pieces = append(t.pieces, piece)
	}
}

// named takes in clauses that are told otherwise than by their own words.
func (t *telling) named(clauses ...string) {
	for _, c := range clauses {
		t.said[c] = true
	}
}

// tellers read the lines that mean more than they say, by key.
var tellers = map[string]func(*telling){
	"time":     (*telling).time,
	"cost":     (*telling).money,
	"credit":   (*telling).money,
	"sold":     (*telling).sale,
	"sale":     (*telling).sale,
	"quotes":   (*telling).quote,
	"parts":    (*telling).part,
	"checks":   (*telling).check,
	"readings": (*telling).reading,
	"snag":     (*telling).item,
}

func meant[T any](t *telling) (T, bool) {
	x, ok := t.meant[t.line].(T)
	return x, ok
}

func (t *telling) time() {
	w, ok := meant[*journal.Work](t)
	if !ok {
		return
	}
	t.Minutes = int(w.Minutes)
	t.say(w.Minutes.String())
	if hands, ok := note.Arg[int](t.line, "hands"); ok && hands > 1 {
		t.pieces[0] += " of work, " + t.line.Head.(measure.Minutes).String() + " by each of " + strconv.Itoa(hands)
	}
	t.named("hands")
	t.inStage(w.Stage)
}

func (t *telling) inStage(stage string) {
	t.named("stage")
	if t.Stage = stage; stage == "" {
		stage = "no stage"
	}
	t.say(stage)
}

func (t *telling) money() {
	m, ok := meant[*journal.Money](t)
	if !ok {
		return
	}
	if m.Donor != "" {
		t.say(t.st.Build.FormatMoney(m.Whole))
		t.say(pick.Either(m.Credit, "off", "on top of") + " what " + m.Donor + " cost")
		t.named("as", "for", "share")
		return
	}
	t.Category, t.Part, t.Supplier = m.Category, m.Part, m.Supplier()
	amount, garage := t.st.Build.FormatMoney(m.Build), ""
	t.say(amount)
	if !m.Garage.IsZero() {
		garage = t.st.Build.FormatMoney(m.Garage)
		t.say(garage + " to the garage")
	}
	if t.st.Counts(m.Date) {
		t.Amount, t.ToGarage = amount, garage
	} else {
		t.say("counts from " + m.Date.String())
	}
	category := m.Category
	if m.Credit {
		category = "back as " + category
	}
	t.say(category)
	t.say(t.partNamed(m.Part))
	t.inStage(m.Stage)
	t.named("as", "for", "share")
}

// partNamed heads a part by its description, its id behind it.
func (t *telling) partNamed(id string) string {
	p := t.st.Part(id)
	if p == nil || p.Description == strings.ReplaceAll(id, "-", " ") {
		return id
	}
	return p.Description + " (" + id + ")"
}

func (t *telling) part() {
	pl, ok := meant[*journal.PartLine](t)
	if !ok {
		return
	}
	t.Part, t.ID = pl.ID, pl.ID
	t.say(pl.State)
	p := t.st.Part(pl.ID)
	if p == nil {
		return
	}
	if p.Lines[0] == pl {
		t.say(t.partNamed(pl.ID))
	}
	t.named("system")
	t.System = p.System
	if p.System != "" {
		t.say("system " + p.System)
	}
	t.inStage(p.Stage)
	note.Set(&t.Supplier, t.line, "from")
}

func (t *telling) check() {
	c, ok := meant[*journal.CheckLine](t)
	if !ok {
		return
	}
	t.ID, t.System = c.Name, c.System
	t.say(c.Told())
	if c.Denied {
		t.say("settles nothing")
	}
	if c.At != nil {
		t.named("at")
		t.say("at " + c.At.String())
	}
}

func (t *telling) reading() {
	r, ok := meant[*journal.Reading](t)
	if !ok {
		return
	}
	t.ID = r.Name
	t.say(r.Value.String())
	switch outside := r.Limits.Outside(r.Value); {
	case outside.Some():
		t.say(outside.String())
	case r.Limits == (note.Limits{}):
		t.say("no limit is known")
	default:
		t.say("within its limits")
	}
	t.named("min", "max", "within", "spec")
}

func (t *telling) item() {
	a, ok := meant[*journal.Act](t)
	if !ok {
		return
	}
	t.ID, t.Kind, t.Severity, t.Stage, t.System = a.ID, a.Kind, a.Severity.String(), a.Stage, a.System
	switch a.What {
	case fact.Remarked:
		t.say("a remark on " + a.ID)
	case fact.Opened, fact.Reopened:
		t.say(a.Kind + ", " + a.Severity.String())
	}
	t.named("minor", "major", "dangerous", "system", "stage", "disclose")
}

// plainly tells a line that means what it says, in its own words.
func (t *telling) plainly() {
	if t.line.Head != nil {
		t.say(t.value(t.line.Head, t.line.HeadSpan().Text()))
	}
	t.say(t.line.Words().S)
}

// clauses tell what the line says besides.
func (t *telling) clauses() {
	for _, c := range t.line.Clauses {
		if !t.said[c.Word] {
			t.say(strings.TrimSpace(c.Word + " " + t.value(c.Value, c.Arg.S)))
		}
		if c.Word == "from" {
			t.Supplier = c.Arg.S
		}
	}
}

func (t *telling) value(v any, typed string) string {
	switch v := v.(type) {
	case measure.Date:
		return v.String()
	case measure.Minutes:
		return v.String()
	case measure.Quantity:
		return v.String()
	case decimal.Decimal:
		return v.String()
	case note.Due:
		if v.Date != 0 {
			return v.Date.String()
		}
		return "in " + v.Distance.String()
	case note.Weeks:
		return either(v, decimal.Decimal.String) + " weeks"
	case measure.Span:
		return v.From.String() + " to " + v.To.String()
	case [3]decimal.Decimal:
		return either(v, t.st.Build.FormatMoney)
	}
	return typed
}

func either(v [3]decimal.Decimal, show func(decimal.Decimal) string) string {
	best, likely, worst := show(v[0]), show(v[1]), show(v[2])
	return pick.Either(best == worst, likely, best+", "+likely+" or "+worst)
}

// hidden tells who does not see the line.
func (t *telling) hidden() {
	t.HiddenFrom = t.kept
	if len(t.kept) > 0 {
		t.say("hidden from " + strings.Join(t.kept, " and "))
	}
}

func (t *telling) quote() {
	q, ok := meant[*journal.Quote](t)
	if !ok {
		return
	}
	t.Part, t.Amount = q.Part, t.st.Build.FormatMoney(q.Landed)
	t.say(t.Amount + " brought here")
	for _, sum := range []struct {
		name string
		decimal.Decimal
	}{{"price", q.Price}, {"freight", q.Freight}, {"duty", q.Duty}, {"import tax", q.Tax}, {"clearance", q.Clearance}} {
		if !sum.IsZero() && !sum.Equal(q.Landed) {
			t.say(sum.name + " " + t.st.Build.FormatMoney(sum.Decimal))
		}
	}
	t.named("freight", "duty", "import vat", "clearance", "plus vat", "rate")
}

func (t *telling) sale() {
	sale, ok := meant[*journal.Sale](t)
	if !ok {
		return
	}
	if !sale.Price.IsZero() {
		t.Amount = t.st.Build.FormatMoney(sale.Price)
	}
	what := map[string]string{"asked": "asking", "floor": "not for less than", "kept": "kept of what the buyer had paid:", "agreed": "sold for",
		"claim": "paid back on a claim:", "returned": "the vehicle came back, the sale has ended"}[sale.What]
	t.say(strings.TrimSpace(cmp.Or(what, sale.What) + " " + t.Amount))
}
