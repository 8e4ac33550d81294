package main

import (
	"slices"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/check"
	"guidecoat/journal/export"
	"guidecoat/journal/fact"
	"guidecoat/journal/pick"
	"guidecoat/journal/problem"
	"guidecoat/journal/state"

	"github.com/spf13/cobra"
)

func newBid(w *world) *cobra.Command {
	var asJSON bool
	var instead []string
	cmd := &cobra.Command{
		Use:   "bid [DIR]",
		Short: "Tells the most to pay at the auction.",
		Long: "Works out from the job card alone the highest bid that still leaves the profit asked for with the confidence asked for, " +
			"the one that pays your hours, and the one that loses nothing; what matters most; and what the bids around the first would earn.\n\n" +
			"It reckons with a normal distribution, and that one hidden fault may spoil every stage at once.",
		Example: "guidecoat bid halden\nguidecoat bid halden --if \"stages: paint: budget 100\"",
	}
	cmd.Flags().StringArrayVar(&instead, "if", nil, "give the answer for a card with this `LINE` beside it, such as \"resale: 4000 4600 5000\"; several are one alternative")
	completeNothing(cmd, "if")
	cmd.Flags().BoolVar(&asJSON, "json", false, "print the answer as JSON")
	return onFolder(cmd, func(_ *cobra.Command, dir string) error {
		p, err := w.loadCard(dir)
		if err != nil {
			return err
		}
		bids := []bidAnswer{answerBid(p)}
		if len(instead) > 0 {
			other, err := w.cardWith(p, instead)
			if err != nil {
				return err
			}
			bids = append(bids, answerBid(other))
		}
		if asJSON {
			answers := []fact.BidAnswer{}
			answers = append(answers, pick.Map(bids, func(b bidAnswer) fact.BidAnswer { return b.BidAnswer })...)
			err = export.Write(w.stdout, export.BidsOf(answers[0], answers[1:]...))
		} else {
			err = w.showBids(p, bids)
		}
		if err != nil {
			return cannotPrint(err)
		}
		if err := w.tell(p); err != nil || p.builds[0].Card.Resale != nil {
			return err
		}
		return noResale("there is nothing to bid against")
	})
}

// noResale ends a run that needs to know what the vehicle may sell for.
func noResale(so string) error {
	return &exit{exitProblems, "no resale is known from the job card, so " + so, "Write for instance \"resale: 4600 5200 5600\" on it: low, likely, high."}
}

// A bidAnswer is what a card answers; it has no figures where a mistake on the card counts
// or it names no resale.
type bidAnswer struct {
	fact.BidAnswer
	known bool
	wrong []problem.Problem // the mistakes that count
}

func answerBid(p *place) bidAnswer {
	card := p.builds[0].Card
	if wrong := wrongForBid(p); len(wrong) > 0 {
		return bidAnswer{BidAnswer: fact.BidAnswer{Currency: card.Currency, Confidence: card.Confidence, Profit: card.Profit}, wrong: wrong}
	}
	answer, known := state.BestBid(card)
	return bidAnswer{answer, known, nil}
}

// wrongForBid are the errors of a card that may change a bid.
func wrongForBid(p *place) []problem.Problem {
	return slices.DeleteFunc(slices.Clone(p.problems()), func(pr problem.Problem) bool {
		return pr.Severity != problem.Error || pr.Check == string(journal.MissingName) || !p.builds[0].Card.CountsForBid(pr.Span)
	})
}

// loadCard reads the job card in a folder and leaves the notes alone.
func (w *world) loadCard(dir string) (*place, error) {
	fsys, err := openFolder(dir)
	if err != nil {
		return nil, err
	}
	if isBuild, err := has(fsys, journal.CardName); err != nil || !isBuild {
		if err != nil {
			return nil, cannotRead(dir, err)
		}
		if journal.IsGarage(fsys) {
			return nil, wrongUsage("Name the folder of one of its builds.", "%s is a garage, and a bid is worked out for one build", dir)
		}
		return nil, fileTrouble("Name the folder of one build, or start one with: guidecoat note --build NAME "+dir, "%s has no job card, build.md", dir)
	}
	return w.cardPlace(dir, journal.ReadCard(fsys, ".")), nil
}

func (w *world) cardPlace(dir string, b *journal.Build) *place {
	return &place{dir: dir, builds: []*journal.Build{b}, states: []*state.State{state.At(b, 0, w.today())}, least: problem.Warning}
}

// cardWith reads the card with other lines on it. A mistake that they bring is one of the
// command line.
func (w *world) cardWith(p *place, lines []string) (*place, error) {
	fsys, err := openFolder(p.dir)
	if err != nil {
		return nil, err
	}
	before := map[string]bool{}
	for _, pr := range p.problems() {
		before[pr.Message] = true
	}
	for _, line := range lines {
		card, added, bad := p.builds[0].CardWith(fsys, line)
		if bad != nil {
			return nil, wrongUsage(check.Nearest(bad.Word, bad.From, "Write what may stand on the card, such as \"resale: 4000 4600 5000\"."), "--if %q: %s", line, bad.Why)
		}
		if added {
			w.say("The card has no such line, so the alternative adds it: %s", line)
		}
		p = w.cardPlace(p.dir, card)
	}
	for _, pr := range wrongForBid(p) {
		if !before[pr.Message] {
			return nil, wrongUsage(pr.Help, "--if %s: %s", strings.Join(lines, "; "), pr.Message)
		}
	}
	return p, nil
}
