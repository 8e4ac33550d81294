package state

import (
	"strings"
	"testing"

	"guidecoat/journal/trial"
)

// saleOf shows how a sale stands, and what it has earned.
func saleOf(st *State) string {
	c, b := st.Costs(), st.Build
	var out []string
	if c.Account != nil {
		for _, r := range c.Account.Rows() {
			out = append(out, r.Name+" "+b.FormatMoney(r.Sum))
		}
	}
	if c.Sold != nil {
		out = append(out, "profit "+b.FormatMoney(c.Sold.Profit)+" on "+c.Sold.Date.String())
	}
	return strings.Join(out, ", ")
}

func TestTheSalesAccount(t *testing.T) {
	whole := "sale:\n  - asked 7,650.00\n  - deposit 300.00; from the buyer; on 2026-07-18\n  - agreed 7,500.00\n  - part exchange 1,100.00; into skeld-van\n  - paid 6,100.00; on 2026-07-28\n  - claim 100.00 loose joint put right; on 2026-08-10"
	for _, c := range []struct{ name, lines, asOf, want, faults string }{
		{"nothing", "# none", "", "", ""},
		{"sold: alone is the price agreed, and owed is not told", "sold: 900", "", "agreed 900.00, profit 800.00 on 2026-07-20", ""},
		{"the whole", whole, "", "asked 7650.00, agreed 7500.00, deposit 300.00, part exchange 1100.00, paid 6100.00, still owed 0.00, claims 100.00, profit 7300.00 on 2026-07-20", ""},
		{"before anything", whole, "2026-07-17", "", ""},
		{"a deposit is no money of the build", whole, "2026-07-18", "deposit 300.00", ""},
		{"agreed and not paid", whole, "2026-07-20", "asked 7650.00, agreed 7500.00, deposit 300.00, part exchange 1100.00, still owed 6100.00, profit 7400.00 on 2026-07-20", ""},
		{"a deposit kept, then sold to another", "sale:\n  - deposit 300; on 2026-07-01\n  - kept 200; on 2026-07-10\n  - agreed 5000\n  - paid 4000", "", "agreed 5000.00, paid 4000.00, still owed 1000.00, kept 200.00, profit 5100.00 on 2026-07-20", ""},
		{"kept alone is no sale", "sale:\n  - deposit 300; on 2026-07-01\n  - kept 300", "", "kept 300.00", ""},
		{"given back: open again, and what is owed starts anew", "sale:\n  - agreed 5000; on 2026-07-02\n  - paid 5000; on 2026-07-02\n  - claim 60 a tyre; on 2026-07-03\n  - returned gearbox; on 2026-07-09", "", "claims 60.00", ""},
		{"given back with a sum, and sold again by the old key", "sale:\n  - agreed 5000; on 2026-07-02\n  - paid 5000; on 2026-07-02\n  - returned 4,900.00; on 2026-07-09\nsold: 4800", "", "agreed 4800.00, profit 4700.00 on 2026-07-20", ""},
		{"given back with money kept for its use", "sale:\n  - agreed 5000; on 2026-07-02\n  - paid 5000; on 2026-07-02\n  - kept 150; on 2026-07-09\n  - returned; on 2026-07-09\n  - agreed 4800", "", "agreed 4800.00, still owed 4800.00, kept 150.00, profit 4850.00 on 2026-07-20", ""},
		{"given back with two sums kept", "sale:\n  - agreed 5000; on 2026-07-02\n  - paid 5000; on 2026-07-02\n  - kept 150; on 2026-07-09\n  - kept 20 fuel; on 2026-07-09\n  - returned; on 2026-07-10", "", "kept 170.00", ""},
		{"a deposit kept, and nothing to come back", "sale:\n  - deposit 300; on 2026-07-01\n  - kept 300; on 2026-07-09\n  - returned; on 2026-07-10", "", "kept 300.00", "not-sold returned"},
		{"the newest price asked counts, by its day", "sale:\n  - asked 5000; on 2026-07-09\n  - asked 5400; on 2026-07-02", "", "asked 5000.00", ""},
		{"another currency", "sale:\n  - agreed 1000 EUR; rate 0.855\n  - paid 1000 EUR; rate 0.86", "", "agreed 855.00, paid 860.00, paid too much 5.00, profit 755.00 on 2026-07-20", "sale-over paid 1000 EUR"},
		{"a colon, a comma, capitals in the words", "sale:\n  - \"agreed: 500.00 with both keys\"\n  - deposit, 20.00", "", "agreed 500.00, deposit 20.00, still owed 480.00, profit 400.00 on 2026-07-20", ""},
		{"a price agreed later than paid", "sale:\n  - paid 500; on 2026-07-01\n  - agreed 500", "", "agreed 500.00, paid 500.00, still owed 0.00, profit 400.00 on 2026-07-20", ""},
		{"sold twice", "sale:\n  - agreed 500\n  - agreed 600", "", "agreed 500.00, still owed 500.00, profit 400.00 on 2026-07-20", "sold-twice agreed 600"},
		{"sold twice by both keys", "sale: agreed 500\nsold: 600", "", "agreed 500.00, still owed 500.00, profit 400.00 on 2026-07-20", "sold-twice 600"},
		{"paid with no price", "sale:\n  - deposit 50\n  - paid 500\n  - claim 10", "", "deposit 50.00", "not-agreed paid 500"},
		{"came back without a sale", "sale: returned", "", "", "not-sold returned"},
		{"came back twice", "sale:\n  - agreed 5\n  - returned\n  - returned again", "", "", "not-sold returned"},
		{"paid too much", "sale:\n  - agreed 500\n  - deposit 100\n  - paid 450\n  - paid 1", "", "agreed 500.00, deposit 100.00, paid 451.00, paid too much 51.00, profit 400.00 on 2026-07-20", "sale-over paid 450"},
		{"more kept than was paid", "sale:\n  - deposit 100\n  - kept 150", "", "kept 150.00", "sale-over kept 150"},
		{"one mistake, one message", "sale:\n  - agreed 500.999\n  - paid 500", "", "paid 500.00", "bad-amount 500.999"},
		{"a word that is none", "sale: depositt 300", "", "", "unknown-sale depositt"},
		{"no sum", "sale: paid", "", "", "bad-amount paid"},
		{"a currency without a rate", "sale: agreed 500 SEK", "", "", "no-rate SEK"},
		{"zero", "sale: deposit 0.00", "", "", "bad-amount 0.00"},
	} {
		b := trial.Compile(t, trial.Session("2026-07-20.md", "stage: all\ncost: 100 all there was\n"+c.lines, ""))
		asOf := trial.Day("2026-12-31")
		if c.asOf != "" {
			asOf = trial.Day(c.asOf)
		}
		trial.WantEqual(t, c.name, saleOf(At(b, asOf, trial.Today)), c.want)
		var faults []string
		for _, f := range b.Faults {
			faults = append(faults, string(f.Flaw)+" "+f.Span.Text())
		}
		trial.WantEqual(t, c.name, strings.Join(faults, ", "), c.faults)
	}
}

// Double entry of a payment in advance: IFRS 15, Illustrative Examples, Example 38, case A
// (from memory): 1,000 that a customer pays before the transfer is a liability and no
// revenue; on the transfer it becomes revenue of 1,000, once.
func TestADepositIsRevenueOnce(t *testing.T) {
	b := trial.Compile(t, trial.Session("2026-03-31.md", "sale: deposit 1,000.00", "")+trial.Session("2026-04-30.md", "sale: agreed 1,000.00", ""))
	before, after := At(b, trial.Day("2026-03-31"), 0).Costs(), At(b, trial.Day("2026-04-30"), 0).Costs()
	if before.Sold != nil || !before.Net.IsZero() || !before.Credits.IsZero() || before.Account.Deposit.String() != "1000" {
		t.Errorf("before the transfer: %+v", before)
	}
	if after.Sold.Profit.String() != "1000" || !after.Account.Owed.IsZero() || !after.Net.IsZero() {
		t.Errorf("after it: %+v", after.Sold)
	}
}
