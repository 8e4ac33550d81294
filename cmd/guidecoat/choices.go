package main

import (
	"fmt"
	"strings"

	"guidecoat/journal/export"
	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/view"

	"github.com/spf13/cobra"
)

func newChoices(w *world) *cobra.Command {
	var day measure.Date
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "choices [DIR]",
		Short: "Tells whether to go on, or to sell it unfinished.",
		Long: "Weighs finishing against the offers on the job card: sell it as it stands, or break it for parts. Only what is still to come " +
			"counts, in money and in hours of work. What is spent is spent, whatever you choose.",
		Example: "guidecoat choices halden\nguidecoat choices halden --as-of 2026-06-01",
	}
	asOf(cmd, &day, howItStood)
	cmd.Flags().BoolVar(&asJSON, "json", false, "print the figures as JSON")
	return onFolder(cmd, func(_ *cobra.Command, dir string) error {
		p, err := w.loadBuild(dir, day, "choices are weighed for one build")
		if err != nil {
			return err
		}
		choices, v := p.states[0].Choices(), p.views()[0]
		if err := w.print(asJSON, export.ChoicesOf(p.builds[0].Card.Currency, choices), func(s *screen) { showChoices(s, p, v, choices) }); err != nil {
			return err
		}
		if err := w.tell(p); err != nil || choices != nil || v.SoldOn != 0 {
			return err
		}
		return noResale("nobody can tell what finishing brings")
	})
}

func showChoices(s *screen, p *place, v *view.View, c *fact.Choices) {
	switch {
	case v.SoldOn != 0:
		s.say("", fmt.Sprintf("It was sold on %s, so there is nothing left to choose.", v.SoldOn))
		return
	case c == nil: // told of where the run ends
		return
	}
	cs := choiceScreen{costsScreen{s, v, v.Money.Costs}, c}
	s.say("", cs.advice())
	s.gap()
	t := table{columns: []column{{head: "way", least: 10}, {head: "brings", right: true}, {head: "hours", right: true}, {head: "an hour", right: true},
		{head: "finishing brings", right: true}, {head: "turns at", right: true}, {head: "until"}}}
	row := func(name string, w fact.Way, more ...string) {
		t.add(append([]string{name, cs.figure(w.Money), w.Minutes().String(), ifKnown(w.PerHour, cs.figure)}, more...)...)
	}
	row("finish it", c.Finish, "", "", "")
	for _, o := range c.Offers {
		row(o.Name, o.Brings, cs.signed(o.Gain), cs.figure(o.TurnsAt), o.Until.String())
	}
	t.print(s)
	s.below(cs.footnote())
	s.incomplete(p)
}

type choiceScreen struct {
	costsScreen
	choices *fact.Choices
}

func (s choiceScreen) advice() string {
	show, best := s.show, s.choices.Best()
	if best == nil {
		text := fmt.Sprintf("No offer stands. Going on brings %s", show(s.choices.Finish.Money))
		if h := s.choices.Finish; h.PerHour != nil {
			text += fmt.Sprintf(" for %s, %s an hour", h.Minutes(), show(*h.PerHour))
		}
		return text + ". An offer is a line of the job card, below \"offers\": \"as it stands: 2500; from a neighbour\"."
	}
	if best.Better() {
		return fmt.Sprintf("%s: %s. Go on only if the offer is less than %s.", upper(sell(best.Name)), s.difference(best), show(best.TurnsAt))
	}
	return fmt.Sprintf("%s; %s from %s up.", upper(s.difference(best)), sell(best.Name), show(best.TurnsAt))
}

func sell(name string) string {
	if how, _, _ := strings.Cut(name, " "); how == "as" || how == "for" {
		return "sell " + name
	}
	return "take the offer \"" + name + "\""
}

func (s choiceScreen) difference(o *fact.Offered) string {
	show := s.show
	text := fmt.Sprintf("going on brings %s more than the offer", show(o.Gain))
	switch {
	case o.Gain.IsNegative():
		text = fmt.Sprintf("going on brings %s less than the offer", show(o.Gain.Neg()))
	case o.Gain.IsZero():
		text = "going on brings just what the offer does"
	}
	switch {
	case o.MoreHours.IsNegative():
		return text + fmt.Sprintf(" and takes %s less", -o.MoreMinutes())
	case o.MoreHours.IsZero():
		return text
	case !o.Gain.IsPositive():
		return text + fmt.Sprintf(" and takes %s more", o.MoreMinutes())
	}
	return text + fmt.Sprintf(" for %s, %s an hour", o.MoreMinutes(), show(*o.GainPerHour))
}

func upper(text string) string { return strings.ToUpper(text[:1]) + text[1:] }

func (s choiceScreen) footnote() string {
	said := []string{fmt.Sprintf("What is spent, %s net, is spent whatever you choose, and counts nowhere here.", s.show(s.choices.Spent)), onAverage, "The hours are on average, too; \"guidecoat costs\" tells the likely ones."}
	if s.choices.Finish.PerHour != nil {
		said = append(said, "An hour here is money still to come by hours still to come; \"guidecoat costs\" divides the whole profit by all hours, worked and to come.")
	}
	if h := s.choices.Pay; h != nil {
		said = append(said, fmt.Sprintf("The answer turns where an hour more earns less than %s, which the card asks for as hourly.", s.show(*h)))
	} else {
		said = append(said, "Your hours count for nothing, since the card names no \"hourly\".")
	}
	if h := s.choices.Holding; h != nil {
		said = append(said, fmt.Sprintf("Taken off already: %s of holding until it is finished.", s.show(*h)))
	}
	if s.choices.Finish.Hours.IsZero() {
		said = append(said, "Nothing says how many hours are to come.")
	}
	return together(" ", append(said, s.guessed())...)
}
