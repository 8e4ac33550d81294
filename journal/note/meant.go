package note

import (
	"regexp"
	"slices"
	"strings"
)

// What people write behind a semicolon for a clause that has another keyword, or for
// what is no clause at all, and what a friend would answer.

// meant is one such way. Its help holds the groups of what was written, and "; …"
// stands for the clause that is right.
type meant struct {
	in      string // the keys of the lines that it is of
	written *regexp.Regexp
	clause  string // what to write in its place; "" where help says it
	help    string
}

func means(in, written, clause, help string) meant {
	return meant{in, regexp.MustCompile(`(?i)^(?:` + written + `)$`), clause, help}
}

const moneyLines = "cost credit sold tools"

var meanings = []meant{
	means(moneyLines, `(?:invoice|inv|bill|receipt|rcpt|order|ref|reference|ticket)\.?:? *(?:no|number|nr)?[.:]? *(\S*[0-9]\S*)`, "receipt $1", ""),
	means(moneyLines, `#(\S*[0-9]\S*)`, "receipt $1", ""),
	means(moneyLines, `(?:paid )?(?:in |by )?(cash|card|bank transfer|transfer|cheque)(?: in hand|, no receipt|, no invoice| paid)?`, "", "How it was paid is description: leave the semicolon out, as in \"12.00 hose, $1\"."),
	means("cost credit", `(?:(?:excl?|excluding|without|no|net of|\+|plus|ex)\.? ?)(?:vat|tax)(?: *([0-9.]+ ?%))?|(?:vat|tax) (?:on top|extra|to add|not included)`, "plus vat $1", ""),
	means("cost credit", `(?:\+ ?)?(?:vat|tax)(?: *([0-9.]+ ?%))?`, "plus vat $1", "Write \"plus vat $1\" if the price is without tax."),
	means(moneyLines, `(?:incl?|including|with|inc)\.? ?(?:vat|tax)|(?:vat|tax) (?:paid|included|incl?)\.?`, "", "Leave it out: an amount is what was paid, tax and all."),
	means("cost", `(?:new |shared |a |for the )?tools?\b.*`, "as tools", ""),
	means("cost", `(?:post|postage|carriage|delivery|shipping)`, "as transport", ""),
	means("cost", `(?:a |the )?deposit\b.*`, "", "A deposit is a line of cost of its own, and the rest another when it is paid: say it in the description."),
	means("cost credit", `(?:by|paid|paid on|bought|bought on|dated) (.*[0-9].*)`, "on $1", ""),
	means("cost parts", `(?:at|via|through|seller|supplier|shop|bought (?:at|from)|ordered (?:at|from)|by):? +([\pL].*)`, "from $1", ""),
	means("cost credit", `(?:half|1/2)(?: mine| each| shared)?`, "share 1/2", ""),
	means("parts snag", `(?:by|before|until|eta|expected|here|arrives|arriving)(?: on| by)? (.*[0-9].*)`, "due $1", ""),
	means("parts", `(?:part|pt|oe|oem|p/?n)?\.? ?(?:no|nr|number)[.:]? +(\S*[0-9]\S*)`, "number $1", ""),
	means("parts", `(?:price|cost|about|approx\.?|around|~|est\.?) *([£€$]?[0-9].*)`, "estimate $1", ""),
	means("time", `(?:both(?: of us)?|(?:the )?two of us|2 of us|two people|2 people|2 men|with (?:a )?(?:helper|\pL+))`, "hands 2", ""),
	means("time", `([2-9]) (?:people|men|persons|of us|pairs of hands)|x ?([2-9])`, "hands $1$2", ""),
	means("snag", `(?:after|once|needs|blocked by|when) ([a-z0-9]+(?:-[a-z0-9]+)+)(?: is (?:here|fitted|done|in))?`, "waits for $1", ""),
	means("checks", `(?:done |passed |carried out )?(?:by|from) (.+)`, "by $1", ""),
	means("readings", `(?:minimum|at least|no less than|not under|>=?|over) ?([0-9].*)`, "min $1", ""),
	means("readings", `(?:maximum|at most|no more than|not over|<=?|under|limit) ?([0-9].*)`, "max $1", ""),
	means("cost credit parts checks snag readings", `(?:photos?|picture|pic|image):? (\S+\.\S+)`, "photo $1", ""),
}

// meaning is the help for a clause that is written otherwise, "" where none is known.
func (k *Kind) meaning(c context, s string) string {
	for _, m := range meanings {
		if !slices.Contains(strings.Fields(m.in), k.Key) {
			continue
		}
		at := m.written.FindStringSubmatchIndex(s)
		if at == nil {
			continue
		}
		clause := strings.TrimSpace(string(m.written.ExpandString(nil, m.clause, s, at)))
		if clause != "" && !k.takes(c, clause) {
			continue
		}
		if m.help != "" {
			return strings.Replace(string(m.written.ExpandString(nil, m.help, s, at)), "vat \"", "vat\"", 1) // no rate was written
		}
		return "Write \"" + clause + "\"."
	}
	return ""
}

// takes tells whether a line of that kind can carry the clause.
func (k *Kind) takes(c context, s string) bool {
	found := findClause(k, s)
	if found == nil {
		return false
	}
	from, to := trim(s, len(found.Word), len(s))
	if found.Value == nil || from == to {
		return from == to && (found.Value == nil || found.Optional)
	}
	_, end, bad := found.Value.Read(c, s[from:to])
	return bad == nil && end == to-from
}
