package export

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"
	"testing/fstest"

	"guidecoat/journal"
	"guidecoat/journal/state"
	"guidecoat/journal/view"

	"github.com/shopspring/decimal"
)

// TestStagesCSVAddsUp sums the totals of stages against the figures of the build.
func TestStagesCSVAddsUp(t *testing.T) {
	for _, name := range []string{"halden", "sold", "yen", "bare"} {
		v := viewAt(t, name, 0)
		c := v.Money.Costs
		var b bytes.Buffer
		if err := WriteStagesCSV(&b, StageTotalsOf(name, v)); err != nil {
			t.Fatal(err)
		}
		rows, err := csv.NewReader(&b).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		sums := make([]decimal.Decimal, len(rows[0]))
		for _, r := range rows[1:] {
			for _, i := range []int{2, 3, 4, 5} {
				sums[i] = sums[i].Add(decimal.RequireFromString(r[i]))
			}
		}
		if !sums[2].Equal(c.Spent) || !sums[3].Equal(c.Credits) || !sums[4].Equal(c.Net) || sums[5].IntPart() != int64(c.Minutes) {
			t.Errorf("%s: the stages add up to %v, the figures to %s, %s, %s, %d", name, sums, c.Spent, c.Credits, c.Net, c.Minutes)
		}
	}
}

// TestStagesCSVIsSafe: nothing runs in a spreadsheet, and no budget is not a budget of nothing.
func TestStagesCSVIsSafe(t *testing.T) {
	b, err := journal.ReadBuild(fstest.MapFS{"build.md": {Data: []byte("---\nbuild: =1+1\ncurrency: GBP\nstages:\n  +axle: no budget\n  paint: budget 1 2 3\n---\n")}}, ".")
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := WriteStagesCSV(&out, StageTotalsOf(b.Card.Name, view.Of(state.At(b, 0, today), view.ForWorkshop))); err != nil {
		t.Fatal(err)
	}
	want := "build,stage,spent,credits,net,minutes,budget_best,budget_likely,budget_worst,remaining_best,remaining_likely,remaining_worst,overrun,currency\r\n" +
		"'=1+1,'+axle,0.00,0.00,0.00,0,,,,0.00,0.00,0.00,0.00,GBP\r\n" +
		"'=1+1,paint,0.00,0.00,0.00,0,1.00,2.00,3.00,1.00,2.00,3.00,0.00,GBP\r\n"
	if got := out.String(); got != want {
		t.Errorf("got:\n%s", strings.ReplaceAll(got, "\r", ""))
	}
}
