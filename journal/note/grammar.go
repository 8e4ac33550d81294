package note

import (
	"guidecoat/journal/pick"
	"strings"
)

// This table is the grammar of the note language. The reader, the help and the manual are all made from it.

// A Shape says how the front matter holds what belongs to a key.
type Shape int

const (
	One   Shape = iota // one value on the key's own line
	Many               // a line, or a list of lines
	Named              // lines that each begin with a name
)

// A Kind is one sort of line: `HEAD; clause; clause`.
type Kind struct {
	Key   string
	Shape Shape
	Name  *Value // the form of the names of a Named kind; nil: any words
	Head  *Value // what the head begins with; nil: free text, which may be left out where there are clauses
	Words bool   // free description may follow the head's first word
	Bare  bool   // of a Named kind: a name alone is enough, with or without its colon
	// Clauses a line may carry. A kind without any is not split at semicolons.
	Clauses []Clause
	About   string // one line for the manual
}

// A Clause is one clause that a kind of line may carry.
type Clause struct {
	Word     string
	Value    *Value // what follows the word; nil: nothing
	Optional bool   // the value may be left out
	Repeat   bool   // may stand more than once
	Group    string // of the clauses of one group only one may stand
	About    string // one line for the manual
}

// Clauses that several kinds of line share.
var (
	clauseStage      = Clause{Word: "stage", Value: text("STAGE"), About: "the stage it belongs to, instead of the note's"}
	clausePrivate    = Clause{Word: "private", About: "counted, but shown in the workshop copy only"}
	clauseSystem     = Clause{Word: "system", Value: oneOf("SYSTEM", UnknownSystem, Systems), About: "the system of the vehicle it touches"}
	clausePhoto      = Clause{Word: "photo", Value: text("FILE"), Repeat: true, About: "a picture of it, as a path from the note's folder"}
	clauseReceipt    = Clause{Word: "receipt", Value: text("REF-OR-FILE"), About: "the receipt's number or file"}
	clauseFrom       = Clause{Word: "from", Value: text("SUPPLIER"), About: "who sold it"}
	clauseFor        = Clause{Word: "for", Value: id("PART"), About: "the part it is for"}
	clauseOn         = Clause{Word: "on", Value: date, About: "the day it was paid, instead of the note's date"}
	clauseRate       = Clause{Word: "rate", Value: rate, About: "build currency for one unit of the written one"}
	clauseVAT        = Clause{Word: "plus vat", Value: percent, Optional: true, About: "the price is without tax: add the card's, or this, rate"}
	clauseUntil      = Clause{Word: "until", Value: dateAhead, About: "the last day on which it holds"}
	clauseAsks       = Clause{Word: "asks for", Value: asks, About: "`nothing`, or exactly these checks, instead of those of the table"}
	clauseBy         = Clause{Word: "by", Value: text("WHO"), About: "who carried it out"}
	clauseRideHeight = Clause{Word: "at ride height", About: "with the weight on the wheels, or the arm held where it is then"}
	clauseSure       = Clause{Word: "sure", About: "it is meant so: a warning on this line is settled"}
	severityClause   = []Clause{
		{Word: "minor", Group: "severity", About: "no significant effect on safety"},
		{Word: "major", Group: "severity", About: "may prejudice safety"},
		{Word: "dangerous", Group: "severity", About: "a direct and immediate risk"},
	}
)

// Every line that has clauses may carry this one.
func init() {
	for _, kinds := range [][]*Kind{Session, Card, Garage, {Snag}} {
		for _, k := range kinds {
			if len(k.Clauses) > 0 {
				k.Clauses = append(k.Clauses, clauseSure)
			}
		}
	}
}

// papers are on the job card and in sessions.
func papers() *Kind {
	return &Kind{Key: "papers", Shape: Named, Clauses: []Clause{
		clauseUntil,
		{Word: "warn", Value: days, About: "how many days before that it is listed; 14 unless said otherwise"},
		{Word: "road", Value: yesNo, About: "`no`: it does not allow driving; `yes`: it does, until that day"},
		clausePrivate,
	}, About: "what runs out, such as the insurance; a later line of the same name takes its place"}
}

// donors are on the job card and in garage.md.
func donors() *Kind {
	return &Kind{Key: "donors", Shape: Named, Name: id("ID"), Head: amount, Words: true, Clauses: []Clause{
		{Word: "category", Value: text("CATEGORY"), About: "its salvage category: from A no part may come, from B none of restraints or structure"},
		{Word: "flood", About: "it stood in water: no restraints of it can be trusted"},
		{Word: "worth", Value: sum, About: "what is still in it is worth"},
		clauseOn, clauseVAT, clauseRate, clauseFrom, clauseReceipt,
	}, About: "a vehicle that parts are taken from; its price is spread over them by their worth"}
}

// Session are the keys of a session note.
var Session = []*Kind{
	{Key: "date", Head: date, About: "the day; required unless the file name begins with it"},
	{Key: "title", About: "the title; otherwise the first heading, otherwise the date"},
	{Key: "stage", About: "where the note's time, money and snags belong unless a line says otherwise"},
	{Key: "odometer", Head: distance, Clauses: []Clause{
		{Word: "new cluster", About: "the instrument was changed, so it may read less than before, or in another unit"},
	}, About: "what the odometer reads"},
	{Key: "private", Head: yesNo, About: "`yes`: counted, but gets no page for public or buyer"},
	{Key: "time", Shape: Many, Head: duration, Words: true, Clauses: []Clause{
		clauseStage,
		{Word: "hands", Value: hands, About: "how many people worked, 1 to 9"},
		clausePrivate,
	}, About: "work done"},
	{Key: "cost", Shape: Many, Head: amount, Words: true, Clauses: []Clause{
		clauseStage,
		{Word: "as", Value: oneOf("CATEGORY", UnknownCategory, Categories), About: "its category; otherwise `parts` with `for`, `vehicle` in a stage of buying, else `sundries`"},
		clauseFor, clauseFrom, clauseReceipt, clauseVAT, clauseRate, clauseOn,
		{Word: "share", Value: share, About: "the build's part, `1/4` or `25%`; the rest goes to the garage"},
		{Word: "surcharge", Value: sum, About: "the refundable part of the price; needs `for`"},
		{Word: "due", Value: dateAhead, About: "the day by which the old part must be back; with `surcharge`"},
		clausePrivate,
	}, About: "money out"},
	{Key: "credit", Shape: Many, Head: amount, Words: true, Clauses: []Clause{
		clauseStage,
		{Word: "as", Value: oneOf("SORT", UnknownCategory, Credits), About: "`refund` unless said otherwise"},
		clauseFor, clauseFrom, clauseReceipt, clauseRate, clauseOn, clausePrivate,
	}, About: "money back: refunds, returned surcharge, spares and scrap sold"},
	{Key: "sold", Head: amount, Words: true, Clauses: []Clause{
		{Word: "to", Value: text("WHOM"), About: "the buyer; never shown to the public"},
		clauseRate, clauseOn, clausePrivate,
	}, About: "the sale of the vehicle: `agreed` in the sale's account"},
	{Key: "sale", Shape: Many, Head: ofSale, Words: true, Clauses: []Clause{
		{Word: "from", Value: text("WHOM"), About: "who paid it; never shown to public or buyer"},
		{Word: "into", Value: text("BUILD"), About: "the folder of the build that the vehicle taken in part exchange became"},
		clauseRate, clauseOn, clausePrivate,
	}, About: "the sale's account: " + strings.Join(SaleHeads, ", ")},
	{Key: "parts", Shape: Named, Name: id("ID"), Head: oneOf("STATE", UnknownState, States), Words: true, Clauses: []Clause{
		{Word: "new", Group: "condition", About: "never used"},
		{Word: "used", Group: "condition", About: "from another vehicle"},
		{Word: "reconditioned", Group: "condition", About: "rebuilt or exchanged"},
		{Word: "genuine", Group: "origin", About: "from the vehicle's maker"},
		{Word: "pattern", Group: "origin", About: "a copy by another maker"},
		clauseSystem, clauseStage,
		{Word: "estimate", Value: three, About: "what it may cost: best, likely, worst, or one number"},
		clauseFrom,
		{Word: "number", Value: text("TEXT"), About: "the part number"},
		{Word: "donor", Value: text("TEXT"), About: "the vehicle it came from"},
		{Word: "worth", Value: sum, About: "what it is worth, by which it bears a part of its donor's price"},
		{Word: "due", Value: dateAhead, About: "the day it should arrive"},
		{Word: "warranty", Value: dateAhead, About: "the last day of its warranty"},
		{Word: "free", About: "nothing was or will be paid"},
		clauseAsks, clausePhoto, clausePrivate,
	}, About: "a part changes state"},
	{Key: "checks", Shape: Named, Name: id("NAME"), Head: oneOf("RESULT", UnknownResult, Results), Words: true, Clauses: append([]Clause{
		{Word: "at", Value: distance, About: "what the odometer read"},
		clauseBy, clauseSystem, clauseReceipt, clausePhoto, clausePrivate,
	}, severityClause...), About: "an inspection or procedure was carried out; a severity says how bad it is that it failed"},
	{Key: "inspection", Head: oneOf("RESULT", UnknownResult, Results[:2]), Words: true, Clauses: []Clause{
		clauseBy,
		{Word: "at", Value: distance, About: "what the odometer read"},
		{Word: "until", Value: date, About: "the last day of its certificate"},
		clauseReceipt, clausePhoto,
	}, About: "the official inspection: passed or failed"},
	{Key: "found", Shape: Named, Name: id("ID"), Head: finding, Words: true, Clauses: []Clause{
		clauseSystem,
		{Word: "disclose", About: "will be told to the buyer instead of mended; minor or advisory"},
	}, About: "what the inspection's sheet lists: how bad, the item, the words"},
	{Key: "readings", Shape: Named, Name: id("NAME"), Head: quantity, Words: true, Clauses: append([]Clause{
		{Word: "min", Value: limit, About: "the least it may be"},
		{Word: "max", Value: limit, About: "the most it may be"},
		{Word: "within", Value: within, About: "both limits, `A..B`"},
		{Word: "spec", Value: spec, About: "the nominal value with its tolerance, `V ±T`"},
		clauseSystem, clausePrivate,
	}, severityClause...), About: "something was measured"},
	{Key: "fasteners", Shape: Named, Name: id("ID"), Head: fastening, Words: true, Clauses: []Clause{
		{Word: "new", About: "with a new bolt or nut"},
		clauseRideHeight, clauseBy, clausePrivate,
	}, About: "a fastener was tightened: its torque, and the angles that follow it"},
	{Key: "remaining", Shape: Named, Head: remaining, Words: true, Clauses: []Clause{
		{Word: "hours", Value: hours, About: "hours still needed: best, likely, worst, or one number"},
	}, About: "a fresh estimate of what a stage still needs from this date on"},
	papers(),
	{Key: "quotes", Shape: Named, Name: id("PART"), Head: amount, Words: true, Clauses: []Clause{
		clauseFrom,
		{Word: "freight", Value: freight, About: "what it costs to have it sent, part of its value for the customs"},
		{Word: "duty", Value: percentOrNone, About: "customs duty on price and freight"},
		{Word: "import vat", Value: percentOrNone, Optional: true, About: "import tax on price, freight and duty: the card's, or this, rate"},
		{Word: "clearance", Value: taxed, About: "what clearing it through the customs costs"},
		{Word: "wait", Value: days, About: "how long it takes to come"},
		clauseUntil, clauseVAT, clauseRate, clausePrivate,
	}, About: "what somebody asks for a part that is needed"},
}

// Snag is the line of a task-list item in the body. Its head is read in item.go.
var Snag = &Kind{Key: "snag", Clauses: append(append([]Clause{}, severityClause...),
	Clause{Word: "due", Value: due, About: "by a day, or within a distance from the session's odometer"},
	Clause{Word: "waits for", Value: id("ID"), Repeat: true, About: "a part or snag that must come first"},
	Clause{Word: "takes", Value: wholeDuration, About: "how long it will take"},
	clauseStage, clauseSystem,
	Clause{Word: "disclose", About: "will be told to the buyer instead of mended; minor, never temporary"},
	clauseAsks, clausePhoto, clausePrivate,
), About: "something outstanding"}

// Page are the keys of an extra page of the site.
var Page = []*Kind{
	{Key: "page", About: "the page's title"},
	{Key: "private", Head: yesNo, About: "`yes`: no page for public or buyer"},
}

// Card are the keys of a job card, build.md.
var Card = []*Kind{
	{Key: "build", About: "the build's name; required"},
	{Key: "vehicle", Shape: Named, About: "what is known of the vehicle, any name"},
	{Key: "currency", Head: currency, About: "the currency of every figure, an ISO 4217 code; required"},
	{Key: "vat", Head: percent, About: "the tax that `plus vat` adds"},
	{Key: "rates", Shape: Named, Name: currency, Head: rate, About: "build currency for one unit of another"},
	{Key: "resale", Head: positiveThree, About: "what it may sell for: low, likely, high"},
	{Key: "profit", Head: plainSum, About: "what it should earn at least"},
	{Key: "confidence", Head: confidence, About: "how sure that must be; 90% unless said otherwise"},
	{Key: "bid increment", Head: sum, About: "bids are multiples of this; 1 unless said otherwise"},
	{Key: "fees", Shape: Named, Head: bands, Clauses: []Clause{clauseVAT}, About: "what the auction adds to the hammer price, in bands"},
	{Key: "hourly", Head: sum, About: "what an hour of your own work should earn"},
	{Key: "holding", Shape: Named, Head: holding, Words: true, About: "what it costs to keep, `a day`, `a week`, `a month` or `a year`"},
	{Key: "weeks", Head: weeks, About: "how many weeks it will take: best, likely, worst, or one number"},
	{Key: "pace", Head: pace, Words: true, About: "how much you work, such as `6h a week`"},
	{Key: "away", Shape: Many, Head: away, About: "days without work, the first and the last, `2026-07-01..2026-07-14`"},
	{Key: "worst", Head: worstCase, About: "how often a best or a worst case is met: `hardly ever`, unless you say `1 in 10`"},
	{Key: "stages", Shape: Named, Bare: true, Clauses: []Clause{
		{Word: "budget", Value: three, About: "best, likely, worst, or one number"},
		{Word: "hours", Value: hours, About: "person-hours it will take: best, likely, worst, or one number"},
		clauseSystem,
		{Word: "purchase", About: "what was paid for the vehicle itself; left out of the bid"},
	}, About: "the stages of the build, in order"},
	{Key: "due checks", Shape: Named, Name: id("NAME"), Clauses: append([]Clause{
		{Word: "after", Value: systems, About: "the systems whose work makes it due"},
		{Word: "distance", Value: stretch, About: "how far it must have been driven since, at least or from A to B"},
		{Word: "because", Value: text("REASON"), About: "why, in plain words"},
	}, severityClause...), About: "checks that follow from work, besides the built-in ones"},
	{Key: "offers", Shape: Named, Head: offer, Words: true, Clauses: []Clause{
		{Word: "from", Value: text("WHOM"), About: "who offers it"},
		{Word: "until", Value: dateAhead, About: "the last day on which it stands"},
		{Word: "hours", Value: hours, About: "person-hours that it still takes: best, likely, worst, or one number"},
	}, About: "what it would bring now, unfinished"},
	papers(),
	{Key: "damage", Shape: Named, Clauses: []Clause{
		{Word: "system", Value: systems, About: "the systems that it touched"},
		{Word: "fired", Value: id("PART"), Repeat: true, About: "an airbag or tensioner that has fired, and that only a new one replaces"},
		{Word: "flood", About: "it stood in water"},
		clausePhoto,
	}, About: "what was hit, by place"},
	{Key: "fasteners", Shape: Named, Name: id("ID"), Head: fastening, Words: true, Clauses: []Clause{
		{Word: "of", Value: id("PART"), About: "the part that it holds; required"},
		{Word: "single use", About: "it must be a new one each time"},
		clauseRideHeight,
		{Word: "±", Value: tolerance, Group: "tolerance", About: "how far the torque may be off, in a unit or `%`; ±5% unless said otherwise"},
		{Word: "+-", Value: tolerance, Group: "tolerance", About: "the same, typed otherwise"},
		clauseSystem,
	}, About: "the maker's torques and angles"},
	donors(),
	{Key: "public", Shape: Named, About: "what the public page tells"},
}

// Garage are the keys of garage.md.
var Garage = []*Kind{
	{Key: "garage", About: "the garage's name"},
	{Key: "currency", Head: currency, About: "the currency of the garage's figures"},
	{Key: "vat", Head: percent, About: "the tax that `plus vat` adds"},
	{Key: "rates", Shape: Named, Name: currency, Head: rate, About: "garage currency for one unit of another"},
	{Key: "tools", Shape: Many, Head: amount, Words: true, Clauses: []Clause{
		{Word: "over", Value: builds, About: "over how many builds the price is spread; required"},
		clauseOn, clauseVAT, clauseRate, clauseFrom, clauseReceipt,
	}, About: "tools that several builds share"},
	donors(),
}

func kind(kinds []*Kind, key string) *Kind {
	return pick.First(kinds, func(k *Kind) bool { return k.Key == key })
}
