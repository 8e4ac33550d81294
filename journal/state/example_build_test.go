package state

import (
	"fmt"
	"io/fs"
	"maps"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"guidecoat/journal"
	"guidecoat/journal/trial"
)

// The example, read by another route: a few regular expressions and whole minor
// units. Where it is not there the tests are skipped.

// plainNote is a note cut up by hand: the lines below each key, and the body.
type plainNote struct {
	date, stage string
	keys        map[string][]string
	body        string
}

var dateAtBegin = regexp.MustCompile(`^\d{4}-\d{2}-\d{2}`)

func plainNotes(t *testing.T, fsys fs.FS) []plainNote {
	var notes []plainNote
	err := fs.WalkDir(fsys, ".", func(p string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			if _, err := fs.Stat(fsys, path.Join(p, ".guidecoat")); err == nil || p != "." && strings.HasPrefix(d.Name(), ".") {
				return fs.SkipDir
			}
			return nil
		}
		data, err := fs.ReadFile(fsys, p)
		if err != nil || !strings.HasSuffix(p, ".md") || p == journal.CardName {
			return err
		}
		parts := strings.SplitN(strings.ReplaceAll(string(data), "\r", ""), "---\n", 3)
		if len(parts) < 3 {
			return nil
		}
		n := plainNote{date: dateAtBegin.FindString(path.Base(p)), keys: map[string][]string{}, body: parts[2]}
		key := ""
		for line := range strings.Lines(parts[1]) {
			trimmed := strings.TrimSpace(line)
			if trimmed == "" || trimmed[0] == '#' {
				continue
			}
			entry := strings.TrimPrefix(trimmed, "- ")
			if line[0] != ' ' && line[0] != '-' {
				k, value, _ := strings.Cut(trimmed, ":")
				if key, entry = k, strings.TrimSpace(value); entry == "" {
					continue
				}
			}
			if len(entry) > 1 && entry[0] == '"' && entry[len(entry)-1] == '"' {
				entry = entry[1 : len(entry)-1]
			}
			n.keys[key] = append(n.keys[key], entry)
		}
		if v := n.keys["date"]; len(v) > 0 {
			n.date = v[0]
		}
		if v := n.keys["stage"]; len(v) > 0 {
			n.stage = v[0]
		}
		if n.date != "" {
			notes = append(notes, n)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	slices.SortStableFunc(notes, func(a, b plainNote) int { return strings.Compare(a.date, b.date) })
	return notes
}

var plainAmount = regexp.MustCompile(`^(?:(\d+(?:\.\d+)?) ?[x×] ?)?(?:(£|€|[A-Z]{3}) ?)?(\d[\d,]*(?:\.\d+)?)(?: ?([A-Z]{3})\b)?(?: [^;]*)?$`)

func plainFigure(s string) figure {
	whole, decimals, _ := strings.Cut(strings.ReplaceAll(s, ",", ""), ".")
	n, _ := strconv.ParseInt(whole+decimals, 10, 64)
	return figure{n, int64(len(decimals))}
}

// clausesOf splits a line at its semicolons into head and clauses by first word.
func clausesOf(line string) (head string, clauses map[string]string) {
	clauses = map[string]string{}
	for i, piece := range strings.Split(line, ";") {
		piece = strings.TrimSpace(piece)
		word, rest, _ := strings.Cut(piece, " ")
		switch {
		case i == 0:
			head = piece
		case word == "plus":
			clauses["vat"] = strings.TrimSpace(strings.TrimPrefix(rest, "vat"))
		default:
			clauses[word] = rest
		}
	}
	return head, clauses
}

// plainMoney reads a line of the forms the example uses.
func plainMoney(t *testing.T, n plainNote, line string, credit bool, staged map[string]string, rates map[string]figure) *oracleLine {
	head, clauses := clausesOf(line)
	m := plainAmount.FindStringSubmatch(head)
	if m == nil {
		t.Fatalf("%s: the amount of %q is of no form this test knows", n.date, line)
	}
	l := &oracleLine{credit: credit, price: plainFigure(m[3]), digits: 2, date: n.date, stage: n.stage, part: clauses["for"], supplier: clauses["from"]}
	if m[1] != "" {
		f := plainFigure(m[1])
		l.quantity = &f
	}
	code := map[string]string{"": "GBP", "£": "GBP", "€": "EUR"}[m[2]+m[4]]
	if code == "" {
		code = m[2] + m[4]
	}
	if code != "GBP" {
		rate, ok := rates[code]
		if own := clauses["rate"]; own != "" {
			rate, ok = plainFigure(own), true
		}
		if !ok {
			t.Fatalf("%s: no rate for %q", n.date, line)
		}
		l.rate = &rate
	}
	if staged[l.part] != "" {
		l.stage = staged[l.part]
	}
	if clauses["stage"] != "" {
		l.stage = clauses["stage"]
	}
	if clauses["on"] != "" {
		l.date = clauses["on"]
	}
	l.category = map[bool]string{true: "refund", false: "sundries"}[credit]
	if !credit && l.part != "" {
		l.category = "parts"
	}
	if clauses["as"] != "" {
		l.category = clauses["as"]
	}
	l.tools = !credit && l.category == "tools"
	if vat, ok := clauses["vat"]; ok {
		f := figure{20, 0} // the card's
		if vat != "" {
			f = plainFigure(strings.TrimSuffix(vat, "%"))
		}
		l.vat = &f
	}
	if share := clauses["share"]; share != "" {
		if num, den, ok := strings.Cut(share, "/"); ok {
			l.shareNum, _ = strconv.ParseInt(num, 10, 64)
			l.shareDen, _ = strconv.ParseInt(den, 10, 64)
		} else {
			f := plainFigure(strings.TrimSuffix(share, "%"))
			l.shareNum, l.shareDen = f.value, 100*ten(int(f.places)).Int64()
		}
	}
	return l
}

var (
	plainHours = regexp.MustCompile(`^(?:(\d+)h ?(\d+)m?|(\d+)(?:h| hours?)|(\d+) ?m(?:in)?|(\d+)\.(\d)h|(\d+):(\d\d)|PT(\d+)H(\d+)M)(?: |$)`)
	plainRange = regexp.MustCompile(`^(\d+):(\d\d) ?[-–] ?(\d+):(\d\d)(?: |$)`)
)

func plainWork(t *testing.T, n plainNote, line string) oracleWork {
	head, clauses := clausesOf(line)
	num := func(s string) int { v, _ := strconv.Atoi(s); return v }
	w := oracleWork{date: n.date, stage: n.stage}
	if m := plainRange.FindStringSubmatch(head); m != nil {
		w.minutes = (num(m[3])*60 + num(m[4]) - num(m[1])*60 - num(m[2]) + 24*60) % (24 * 60)
	} else if m := plainHours.FindStringSubmatch(head); m != nil {
		w.minutes = (num(m[1])+num(m[3])+num(m[5])+num(m[7])+num(m[9]))*60 + num(m[2]) + num(m[4]) + num(m[6])*6 + num(m[8]) + num(m[10])
	} else {
		t.Fatalf("%s: the duration of %q is of no form this test knows", n.date, line)
	}
	if hands := clauses["hands"]; hands != "" {
		w.minutes *= num(hands)
	}
	if clauses["stage"] != "" {
		w.stage = clauses["stage"]
	}
	return w
}

func TestExampleAgainstThePlainSum(t *testing.T) {
	fsys, b := exampleBuild(t)
	for _, f := range trial.FaultsOf(b) {
		t.Log(f)
	}
	if b.LinesLeftOut > 0 {
		t.Errorf("%d lines left out", b.LinesLeftOut)
	}
	notes := plainNotes(t, fsys)
	o := &oracle{home: "GBP", digits: currencyDigits, staged: map[string]string{}}
	rates := map[string]figure{}
	for code, rate := range b.Card.Rates {
		rates[code] = plainFigure(rate.String())
	}
	for _, n := range notes {
		for _, line := range n.keys["parts"] {
			id, rest, _ := strings.Cut(line, ": ")
			if _, clauses := clausesOf(rest); clauses["stage"] != "" {
				o.staged[id] = clauses["stage"]
			}
		}
	}
	for _, n := range notes {
		for _, line := range n.keys["cost"] {
			o.money = append(o.money, plainMoney(t, n, line, false, o.staged, rates))
		}
		for _, line := range n.keys["credit"] {
			o.money = append(o.money, plainMoney(t, n, line, true, o.staged, rates))
		}
		for _, line := range n.keys["time"] {
			o.work = append(o.work, plainWork(t, n, line))
		}
	}
	if len(o.money) < 50 || len(notes) != len(b.Sessions) {
		t.Errorf("%d lines of money in %d notes of %d sessions", len(o.money), len(notes), len(b.Sessions))
	}
	compareTallies(t, "example", tallyOf(At(b, 0, trial.Today)), o.tally(""), nil)
	for _, n := range notes {
		got, want := tallyOf(At(b, trial.Day(n.date), trial.Today)), o.tally(n.date)
		for _, tally := range []tally{got, want} { // what was paid of a part that is not declared yet
			maps.DeleteFunc(tally, func(key, _ string) bool { return strings.HasPrefix(key, "paid ") })
		}
		compareTallies(t, "example as of "+n.date, got, want, nil)
	}
}

var plainTemporary = regexp.MustCompile(`(?mi)^[ >]*(?:[-*+]|\d+[.)]) \[[ x]\] temporary(?: ([a-z0-9-]+))?(?::| *$)`)

// `snags --kind temporary` by another route: a plain search of the notes finds
// exactly the snags of that kind.
func TestExampleTemporaryFixes(t *testing.T) {
	fsys, b := exampleBuild(t)
	count := func(list []string) string {
		slices.Sort(list)
		return fmt.Sprint(len(list), " ", strings.Join(slices.Compact(list), " "))
	}
	var got, want []string
	for _, s := range At(b, 0, trial.Today).Snags {
		if s.Kind == "temporary" {
			got = append(got, s.ID)
		}
	}
	for _, n := range plainNotes(t, fsys) {
		for _, m := range plainTemporary.FindAllStringSubmatch(n.body, -1) {
			want = append(want, m[1])
		}
	}
	trial.WantEqual(t, "temporary fixes", count(got), count(want))
	if len(got) == 0 {
		t.Error("the example has none")
	}
}
