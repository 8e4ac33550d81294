package manual

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"guidecoat/journal"
	"guidecoat/journal/measure"
	"guidecoat/journal/near"
	"guidecoat/journal/note"
	"guidecoat/journal/view"
)

var update = flag.Bool("update", false, "write the tables that are made from the code")

// made are the tables that are made from the code, by the name in their markers.
var made = map[string]func() string{
	"session keys":    func() string { return keysTable(note.Session) },
	"units":           measure.ManualUnits,
	"snag clauses":    func() string { return clausesTable(note.Snag) },
	"due checks":      dueTable,
	"card keys":       func() string { return keysTable(note.Card) },
	"public settings": journal.ManualPublic,
	"garage keys":     func() string { return keysTable(note.Garage) },
	"checks":          checksTable,
	"grades":          gradesTable,
}

func gradesTable() string {
	table := "| what shows it | what that is |\n|---|---|\n"
	for _, g := range view.Grades {
		table += "| " + g.Name + " | " + g.Means + " |\n"
	}
	return table
}

// The manual's tables are those of the code. After a change of one of them:
//
//	go test ./cmd/guidecoat/manual -update
func TestTables(t *testing.T) {
	const end = "<!-- end -->"
	seen := 0
	for _, name := range names {
		file := name + ".md"
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		have := string(data)
		want := have
		for table, text := range made {
			before, rest, ok := strings.Cut(want, "<!-- "+table+" -->\n")
			_, after, closed := strings.Cut(rest, end)
			if !ok || !closed {
				continue
			}
			seen++
			want = before + "<!-- " + table + " -->\n\n" + strings.TrimSpace(text()) + "\n\n" + end + after
		}
		if have == want {
			continue
		}
		if !*update {
			t.Errorf("%s is out of date: run go test ./cmd/guidecoat/manual -update", file)
		} else if err := os.WriteFile(file, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if seen != len(made) {
		t.Errorf("%d of %d tables stand in the manual", seen, len(made))
	}
}

// Every file is a topic, and each begins with a heading and what it is about.
func TestTopics(t *testing.T) {
	listed, err := filepath.Glob("*.md")
	if err != nil || len(listed) != len(Topics()) {
		t.Errorf("%d files, %d topics: %v", len(listed), len(Topics()), err)
	}
	for _, topic := range Topics() {
		if topic.Title == "" || !strings.HasSuffix(topic.About, ".") || len(topic.About) > 66 {
			t.Errorf("%s: %q is about %q", topic.Name, topic.Title, topic.About)
		}
		lines := 0
		for _, s := range topic.Sections {
			lines += strings.Count(s.Text, "\n")
			if s.Title == "" || strings.Contains(s.Text, "<!-- ") {
				t.Errorf("%s: section %q", topic.Name, s.Title)
			}
		}
		if lines > 250 {
			t.Errorf("%s has %d lines: make two topics of it", topic.Name, lines)
		}
	}
}

// Headings hold the words that people look for.
const (
	neverReal     = "Never real: a snag that was none, seen with hindsight"
	hide          = "Keeping something private: hide a secret line from the buyer, who must not see it"
	helpers       = "A helper, a friend or mate, or several people: the two of us"
	odometer      = "The odometer, in miles or kilometres (kilometers, km)"
	euros         = "Bought or paid in another currency, such as euros; the bank fee"
	shared        = "Tools, and what is shared: half a tin of paint, another car"
	checksDue     = "Checks that work makes due: what is checked after the brakes"
	oneBuyer      = "The buyer's pack: a site for one buyer"
	oldPart       = "The old part goes back: the supplier's deposit back, refunded"
	aDay          = "What can be done now: a Saturday, a weekend, six hours"
	otherCar      = "From the shelf, from my other car (another build), in exchange"
	ontoHost      = "Onto a host: upload it to your webspace, website, the internet"
	officialTest  = "How it went: the official test passed or failed, such as an MOT"
	moneyBack     = "Money back: refunds, a returned part, spares, scrap"
	onlyEstimated = "Amounts, and what is only estimated: a guess, roughly, approximate"
	forOthers     = "Work for a customer, on a vehicle that is not mine but somebody else's"
	language      = "Pages in another language: German, Norwegian, French"
	hiddenPhoto   = "A photo that nobody is to see: hide it, keep it private"
	goOn          = "The question: finish it, sell it as it stands, or breaking it to sell it for parts"
	used          = "New or used (from a breaker or dismantler), number, donor, warranty"
	mostToBid     = "Three answers: what to bid at most, the maximum bid"
	beforeSold    = "Before it may be sold: what stops a sale, what makes it ready to sell"
)

// What somebody looks for is found at once: the first section is where it is told.
func TestFind(t *testing.T) {
	for _, x := range []struct{ asked, topic, title string }{
		{"friend", "time", helpers},
		{"bank fee", "money", euros}, {"foreign", "money", euros},
		{"upload", "publishing", ontoHost}, {"website", "publishing", ontoHost}, {"webspace", "publishing", ontoHost}, {"internet", "publishing", ontoHost},
		{"mot", "inspection", officialTest}, {"test failed", "inspection", officialTest},
		{"returned", "money", moneyBack},
		{"refund", "money", moneyBack},
		{"estimated", "money", onlyEstimated},
		{"roughly", "money", onlyEstimated},
		{"approximate", "money", onlyEstimated},
		{"guess", "money", onlyEstimated},
		{"not mine", "limits", forOthers},
		{"customer", "limits", forOthers},
		{"somebody else's car", "limits", forOthers},
		{"german", "look", language},
		{"language", "look", language},
		{"hide photo", "photos", hiddenPhoto},
		{"sell for parts", "choices", goOn},
		{"breaking", "choices", goOn},
		{"breaker", "parts", used},
		{"dismantler", "parts", used},
		{"bid at most", "bid", mostToBid},
		{"maximum bid", "bid", mostToBid},
		{"kilometers", "readings", odometer},
		{"old part", "surcharge", oldPart},
		{"cash", "money", "Cash, receipts, and the day it was paid"},
		{"vat", "money", "Tax: VAT on top"},
		{"tax", "money", "Tax: VAT on top"},
		{"path", "start", "Install"},
		{"helper", "time", helpers},
		{"lunch", "time", "Breaks"},
		{"purchase", "money", "Bought: purchase price, auction fees, delivery"},
		{"auction", "money", "Bought: purchase price, auction fees, delivery"},
		{"torque", "readings", "Torque"},
		{"mileage", "money", "Categories"},
		{"odometer", "readings", odometer},
		{"severity", "snags", "How bad it is: severity"},
		{"temporary", "snags", "A temporary fix, and putting it right"},
		{"disclose", "snags", "Told to the buyer instead of mended"},
		{"comment", "private", "Comments"},
		{"estimate", "parts", "Needed, with an estimate"},
		{"how do I write a helper", "time", helpers},
		{"refund wibble", "money", moneyBack},
		{"re-torque", "checks", "After some distance: the wheel bolts again"},
		{"as-of", "commands", "DIR and dates"},
		{"donor", "parts", "From a donor vehicle: what a part of it has cost"},
		{"warning", "time", "What gets a warning or an error"},
		{"gps", "photos", "What is done with it"},
		{"euro", "money", euros},
		{"fault code", "readings", "Fault codes: a scan"},
		{"exit code", "commands", "Exit codes"},
		{"theme", "look", "The themes"},
		{"jacking", "cautions", "Before you work"},
		{"correct", "files", "A mistake in an old note: correct, edit, amend or undo a typo, a wrong line"},
		{"correction", "files", "A mistake in an old note: correct, edit, amend or undo a typo, a wrong line"},
		{"wrong", "files", "A mistake in an old note: correct, edit, amend or undo a typo, a wrong line"},
		{"typo", "files", "A mistake in an old note: correct, edit, amend or undo a typo, a wrong line"},
		{"old note", "files", "A mistake in an old note: correct, edit, amend or undo a typo, a wrong line"},
		{"amend", "files", "A mistake in an old note: correct, edit, amend or undo a typo, a wrong line"},
		{"edit", "files", "A mistake in an old note: correct, edit, amend or undo a typo, a wrong line"},
		{"undo", "files", "A mistake in an old note: correct, edit, amend or undo a typo, a wrong line"},
		{"change a note", "files", "A mistake in an old note: correct, edit, amend or undo a typo, a wrong line"},
		{"secret", "private", hide},
		{"failed", "checks", "What settles a check: failed, and passed later"},
		{"hindsight", "snags", neverReal}, {"never real", "snags", neverReal},
		{"hide from the buyer", "private", hide}, {"keep a line from the buyer", "private", hide},
		{"supplier deposit", "surcharge", oldPart}, {"deposit back", "surcharge", oldPart}, {"deposit refunded", "surcharge", oldPart}, {"supplier's deposit back", "surcharge", oldPart},
		{"saturday", "snags", aDay}, {"this Saturday", "snags", aDay}, {"weekend", "snags", aDay}, {"six hours", "snags", aDay},
		{"my other car", "parts", otherCar}, {"part from my other car", "parts", otherCar},
		{"before it is sold", "selling", beforeSold}, {"before it may be sold", "selling", beforeSold}, {"what stops a sale", "selling", beforeSold}, {"ready to sell", "selling", beforeSold},
		{"paid in euros", "money", euros}, {"bought in euros", "money", euros}, {"two of us", "time", helpers}, {"two people", "time", helpers},
		{"buyer must not see", "private", hide}, {"half a tin", "money", shared}, {"paint tin", "money", shared}, {"another car", "money", shared},
		{"brakes checked", "checks", checksDue}, {"after brakes", "checks", checksDue}, {"one buyer", "selling", oneBuyer}, {"buyer site", "selling", oneBuyer},
		{"kilometres", "readings", odometer}, {"km", "readings", odometer},
		{"SOURCE_DATE_EPOCH", "publishing", "The same again"},
	} {
		found, telling := Find(x.asked)
		if len(found) == 0 || telling == 0 || found[0].Topic != x.topic || found[0].Title != x.title {
			var titles []string
			for _, s := range found[:min(len(found), 3)] {
				titles = append(titles, s.Topic+", "+s.Title)
			}
			t.Errorf("%q: found %q, want %s, %s", x.asked, titles, x.topic, x.title)
		}
	}
	for _, nothing := range []string{"", "  ", "wibble", "wibble wobble", "car-park-attendant"} {
		if found, _ := Find(nothing); len(found) > 0 {
			t.Errorf("%q was found in %d places", nothing, len(found))
		}
	}
	for wrong, want := range map[string]string{"surchage": "surcharge", "odometre": "odometer", "Receits": "receipts", "wibble": ""} {
		if got := near.Nearest(strings.ToLower(wrong), Words()); got != want {
			t.Errorf("near %q is %q, want %q", wrong, got, want)
		}
	}
}
