package aloud

import (
	"cmp"
	"strings"

	"guidecoat/journal"

	"github.com/shopspring/decimal"
)

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
