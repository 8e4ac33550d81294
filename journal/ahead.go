package journal

import (
	"cmp"
	"math/big"
	"slices"

	"guidecoat/journal/measure"
	"guidecoat/journal/near"
	"guidecoat/journal/note"
	"guidecoat/journal/source"

	"github.com/shopspring/decimal"
)

// HoldingWithoutTime says that nobody can tell for how long holding is paid.
const HoldingWithoutTime source.Flaw = "holding-without-time"

// Ahead is what the card says about hours, weeks and what an unfinished vehicle brings.
type Ahead struct {
	Hourly   *decimal.Decimal // what an hour should earn; nil where none is asked for
	Holding  *big.Rat         // what it costs to keep by the week; nil for nothing
	Weeks    *[3]decimal.Decimal
	Pace     *big.Rat       // minutes of work a week; nil where none is named
	Away     []measure.Span // in order, none touching the next
	OneInTen bool           // best and worst are chances of one in ten
	Offers   []Offer
}

// An Offer is what the vehicle would bring unfinished.
type Offer struct {
	Name  string
	Money [3]decimal.Decimal
	Hours [3]measure.Minutes // that it still takes
	From  string
	Until measure.Date // 0: it stands without end
	Line  *note.Line
}

func cardHolding(b *Build, c *Card, l *note.Line) {
	c.Holding = new(big.Rat).Add(cmp.Or(c.Holding, new(big.Rat)), l.Head.(*big.Rat))
}

// timeForHolding leaves out what holding costs where nothing says for how long. It is
// said once, and not where a line that may say it was reported.
func timeForHolding(b *Build, c *Card) {
	if c.Holding == nil || c.Weeks != nil || c.Pace != nil {
		return
	}
	told := slices.ContainsFunc(c.Note.Fields, func(f note.Field) bool { return near.Nearest(f.Key, []string{"weeks", "pace"}) != "" })
	for _, l := range c.Note.Lines {
		if l.Kind.Key != "holding" || b.LeftOut(l) {
			continue
		}
		if b.leaveOut(l); !told {
			b.fault(source.Fault{Flaw: HoldingWithoutTime, Span: l.NameSpan(), Word: l.Name})
			told = true
		}
	}
	c.Holding = nil
}

func cardOffer(b *Build, c *Card, l *note.Line) {
	o := Offer{Name: l.Name, Money: l.Head.([3]decimal.Decimal), From: said(l, "from"), Line: l}
	o.Hours, _ = note.Arg[[3]measure.Minutes](l, "hours")
	o.Until, _ = note.Arg[measure.Date](l, "until")
	c.Offers = append(c.Offers, o)
}
