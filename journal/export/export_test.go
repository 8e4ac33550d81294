package export

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"flag"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/fstest"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/pick"
	"guidecoat/journal/state"
	"guidecoat/journal/view"

	"github.com/shopspring/decimal"
	"golang.org/x/tools/txtar"
)

var update = flag.Bool("update", false, "rewrite the golden files")

const today = measure.Date(20261125)

func files(t *testing.T, name string) fs.FS {
	t.Helper()
	a, err := txtar.ParseFile(filepath.Join("testdata", name+".txtar"))
	if err != nil {
		t.Fatal(err)
	}
	fsys := fstest.MapFS{}
	for _, f := range a.Files {
		fsys[f.Name] = &fstest.MapFile{Data: f.Data}
	}
	return fsys
}

func viewAt(t *testing.T, name string, asOf measure.Date) *view.View {
	t.Helper()
	b, err := journal.ReadBuild(files(t, name), ".")
	if err != nil {
		t.Fatal(err)
	}
	return view.Of(state.At(b, asOf, today), view.ForWorkshop)
}

func costs(v *view.View) Object { return CostsOf(v) }

func snags(v *view.View) Object {
	return Under("snags", pick.Map(v.Snags, func(s *view.SnagView) Object { return SnagOf(s, "") }))
}

func parts(v *view.View) []Object {
	return pick.Map(v.Parts, func(p *view.PartView) Object { return PartOf(v, p, "") })
}

func printed(t *testing.T, value any) string {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, value); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// TestGolden compares everything that is exported of the builds in testdata.
func TestGolden(t *testing.T) {
	for _, name := range []string{"halden", "sold", "bare", "yen"} {
		st := viewAt(t, name, 0)
		var moneyCSV, partsCSV bytes.Buffer
		if err := errors.Join(WriteCSV(&moneyCSV, st), WritePartsCSV(&partsCSV, parts(st))); err != nil {
			t.Fatal(err)
		}
		golden(t, name+".costs.json", printed(t, costs(st)))
		golden(t, name+".snags.json", printed(t, snags(st)))
		golden(t, name+".parts.json", printed(t, Under("parts", parts(st))))
		golden(t, name+".costs.csv", moneyCSV.String())
		golden(t, name+".parts.csv", partsCSV.String())
	}
	g, err := journal.ReadGarage(files(t, "yard"))
	if err != nil {
		t.Fatal(err)
	}
	golden(t, "yard.costs.json", printed(t, GarageOf(state.GarageAt(g, 0, today))))
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s differs; got:\n%s", name, got)
	}
}

// TestContract reads the JSON with types that know nothing of ours: those that
// the manual promises to other programs.
func TestContract(t *testing.T) {
	for _, c := range []struct {
		name  string
		value any
		keys  map[string]string // by path, the sorts of value that may stand there
	}{
		{"costs", costs(viewAt(t, "halden", 0)), map[string]string{
			"build": "text", "currency": "text", "as_of": "null", "spent": "money", "credits": "money", "net": "money", "to_garage": "money",
			"minutes": "number", "surcharge_due": "money", "lines_left_out": "number",
			"stages": "list", "stages.stage": "text", "stages.spent": "money", "stages.credits": "money", "stages.net": "money",
			"stages.minutes": "number", "stages.budget": "three null", "stages.remaining": "three", "stages.overrun": "money",
			"categories": "list", "categories.category": "text", "categories.spent": "money",
			"suppliers": "list", "suppliers.supplier": "text", "suppliers.spent": "money",
			"forecast": "object", "forecast.cost": "three", "forecast.cost_mean": "money", "forecast.cost_sd": "money",
			"forecast.cost_sd_together": "money", "forecast.resale_mean": "money", "forecast.resale_sd": "money",
			"forecast.profit_mean": "money", "forecast.chance": "number", "forecast.chance_together": "number", "sold": "null",
		}},
		{"costs of a sold build", costs(viewAt(t, "sold", 20260701)), map[string]string{
			"as_of": "date", "forecast": "null", "sold": "object", "sold.price": "money", "sold.date": "date", "sold.profit": "money", "sold.per_hour": "money",
		}},
		{"costs of next to nothing", costs(viewAt(t, "bare", 0)), map[string]string{
			"stages": "none", "categories": "none", "suppliers": "none", "forecast.resale_mean": "null", "forecast.resale_sd": "null",
			"forecast.profit_mean": "null", "forecast.chance": "null", "forecast.chance_together": "null",
		}},
		{"snags", snags(viewAt(t, "halden", 0)), map[string]string{
			"snags": "list", "snags.id": "text null", "snags.kind": "text null", "snags.severity": "text", "snags.text": "text",
			"snags.stage": "text null", "snags.system": "text null", "snags.source": "text", "snags.state": "text", "snags.opened": "date",
			"snags.cleared": "date null", "snags.due": "date text null", "snags.overdue": "bool", "snags.doable": "bool",
			"snags.waits_for": "list none", "snags.minutes": "number null", "snags.file": "text", "snags.line": "number",
		}},
		{"no snags", snags(viewAt(t, "bare", 0)), map[string]string{"snags": "none"}},
		{"parts", Under("parts", parts(viewAt(t, "halden", 0))), map[string]string{
			"parts": "list", "parts.id": "text", "parts.description": "text", "parts.state": "text", "parts.system": "text null",
			"parts.stage": "text null", "parts.condition": "text null", "parts.origin": "text null", "parts.paid": "money",
			"parts.due": "date null", "parts.late": "bool", "parts.file": "text", "parts.line": "number",
		}},
		{"no parts", Under("parts", parts(viewAt(t, "bare", 0))), map[string]string{"parts": "none"}},
	} {
		var value any
		if err := json.Unmarshal([]byte(printed(t, c.value)), &value); err != nil {
			t.Fatal(err)
		}
		for path, sorts := range c.keys {
			found := values(value, strings.Split(path, "."))
			if len(found) == 0 {
				t.Errorf("%s: nothing stands at %s", c.name, path)
			}
			for _, v := range found {
				if !anySort(v, strings.Fields(sorts)) {
					t.Errorf("%s: %s is %#v, want %s", c.name, path, v, sorts)
				}
			}
		}
	}
}

// values are what stands at a path of keys, in every entry of the lists on the way.
func values(v any, path []string) []any {
	if entries, ok := v.([]any); ok && len(path) > 0 {
		var found []any
		for _, e := range entries {
			found = append(found, values(e, path)...)
		}
		return found
	}
	if len(path) == 0 {
		return []any{v}
	}
	object, _ := v.(map[string]any)
	below, ok := object[path[0]]
	if !ok {
		return nil
	}
	return values(below, path[1:])
}

func anySort(v any, sorts []string) bool {
	for _, s := range sorts {
		if isSort(v, s) {
			return true
		}
	}
	return false
}

func isSort(v any, sort string) bool {
	text, isText := v.(string)
	entries, isList := v.([]any)
	switch sort {
	case "null":
		return v == nil
	case "bool":
		_, ok := v.(bool)
		return ok
	case "number":
		_, ok := v.(float64)
		return ok
	case "object":
		_, ok := v.(map[string]any)
		return ok
	case "text":
		return isText && text != ""
	case "date":
		_, bad := measure.ParseDate(text)
		return bad == nil
	case "money":
		whole, pence, ok := strings.Cut(text, ".")
		return ok && len(pence) == 2 && whole != "" && strings.Trim(strings.TrimPrefix(text, "-"), "0123456789.") == ""
	case "list":
		return isList && len(entries) > 0
	case "none":
		return isList && len(entries) == 0
	case "three":
		return isList && len(entries) == 3 && isSort(entries[0], "money") && isSort(entries[1], "money") && isSort(entries[2], "money")
	}
	panic("no sort called " + sort)
}

// TestCSVAddsUp sums the CSV, an outside reading of the lines, against the figures.
func TestCSVAddsUp(t *testing.T) {
	for _, name := range []string{"halden", "sold", "yen"} {
		v := viewAt(t, name, 0)
		var b bytes.Buffer
		if err := WriteCSV(&b, v); err != nil {
			t.Fatal(err)
		}
		if strings.Count(b.String(), "\n") != strings.Count(b.String(), "\r\n") {
			t.Errorf("%s: a line does not end as RFC 4180 has it", name)
		}
		rows, err := csv.NewReader(&b).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		sums := map[string]decimal.Decimal{}
		for _, r := range rows[1:] {
			sums[r[5]] = sums[r[5]].Add(decimal.RequireFromString(r[9]))
			sums["garage"] = sums["garage"].Add(decimal.RequireFromString(r[11]))
			if r[10] != v.Currency.Code {
				t.Errorf("%s: a row is in %s", name, r[10])
			}
		}
		c := v.Money.Costs
		if !sums["cost"].Equal(c.Spent) || !sums["credit"].Equal(c.Credits) || !sums["garage"].Equal(c.ToGarage) {
			t.Errorf("%s: the CSV adds up to %v, the figures to %s, %s, %s", name, sums, c.Spent, c.Credits, c.ToGarage)
		}
	}
}

func TestSafe(t *testing.T) {
	for text, want := range map[string]string{
		"": "", "caliper": "caliper", "=1+1": "'=1+1", "+44 20": "'+44 20", "-5": "'-5", "@SUM(A1)": "'@SUM(A1)", "\tx": "'\tx", "\rx": "'\rx",
		"a=b": "a=b", "'quoted": "'quoted", "é": "é",
	} {
		if got := safe(text); got != want {
			t.Errorf("safe(%q) = %q, want %q", text, got, want)
		}
	}
}
