package main

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"guidecoat/journal/export"
	"guidecoat/journal/fact"
	"guidecoat/journal/measure"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/problem"
	"guidecoat/journal/speech"
	"guidecoat/journal/state"
	"guidecoat/journal/view"
	"guidecoat/themes"

	"github.com/spf13/cobra"
)

func newHandover(w *world) *cobra.Command {
	var day measure.Date
	var toDrive, uncleared, asJSON bool
	o := publishing{audience: view.ForBuyer, theme: themes.Default}
	cmd := &cobra.Command{
		Use:   "handover [DIR]",
		Short: "Tells what stands in the way of selling, or of driving.",
		Long: "Goes through what selling asks for, and names everything that stands in its way with its place in the notes. When all is met " +
			"it writes the buyer's pack: the site for the buyer with a record to print.\n\n" +
			"--to-drive looks only at what is dangerous, at the newest inspection and at the salvage category. --uncleared writes the pack although something stops it, and marks every page so.\n\n" +
			"It checks the record, not the vehicle. The inspection of your country and licensed practice have the last word.",
		Example: "guidecoat handover halden\nguidecoat handover halden --to-drive",
		PreRunE: alone("to-drive uncleared"),
	}
	cmd.Flags().BoolVar(&toDrive, "to-drive", false, "look only at what stands in the way of driving it")
	cmd.Flags().BoolVar(&uncleared, "uncleared", false, "write the pack although something stands in the way, and say so on every page")
	cmd.Flags().StringVar(&o.to, "to", "", "write the pack into `FOLDER` instead of "+o.folder()+" beside the notes")
	themeFlag(cmd, &o.theme)
	asOf(cmd, &day, howItStood)
	cmd.Flags().BoolVar(&asJSON, "json", false, "print the requirements as JSON")
	return onFolder(cmd, func(_ *cobra.Command, dir string) error {
		p, err := w.loadBuild(dir, day, "handover looks at one build")
		if err != nil {
			return err
		}
		errors := stops(p.problems())
		v := view.ForHandover(p.states[0], view.ForWorkshop, errors)
		list := v.Handover.Requirements
		if toDrive {
			list = v.Handover.ToDrive
		}
		answer := export.HandoverOf(list, v.Handover.NotRecorded)
		if err := w.print(asJSON, answer, func(s *screen) { showHandover(s, p.name(v), v, list, toDrive) }); err != nil {
			return err
		}
		trouble := w.tell(p)
		cleared := view.AllMet(list)
		if !toDrive && trouble == nil && (cleared || uncleared) {
			out := *w
			if asJSON { // what is printed stays JSON alone
				out.stdout = w.stderr
			}
			trouble = out.publish(p, o, func(st *state.State) *view.View { return view.ForHandover(st, view.ForBuyer, errors) }, nil)
		}
		if trouble == nil && !cleared {
			trouble = &exit{code: exitProblems}
		}
		return trouble
	})
}

func stops(problems []problem.Problem) []state.Stop {
	errs := pick.Where(problems, func(p problem.Problem) bool { return p.Severity == problem.Error })
	return pick.Map(errs, func(p problem.Problem) state.Stop { return state.Stop{Text: p.Message, Span: p.Span} })
}

func showHandover(s *screen, name string, v *view.View, list []view.RequirementView, toDrive bool) {
	goal := pick.Either(toDrive, "of driving", "of the sale")
	verdict := fmt.Sprintf("%s: something recorded stands in the way %s.", name, goal)
	switch {
	case !view.AllMet(list):
	case toDrive:
		verdict = name + ": nothing dangerous is recorded."
	default:
		verdict = name + ": nothing recorded stands in the way of the sale."
	}
	if major := openMajors(v); toDrive && major != "" {
		verdict += " Major and open: " + major + "."
	}
	s.say("", verdict)
	if silent := v.Handover.NotRecorded; silent != nil {
		s.say("", "What is not recorded: "+strings.Join(speech.All(silent), "; ")+".")
	}
	s.gap()
	for _, r := range list {
		mark, as := "met  ", plain
		if !r.Met {
			mark, as = "stops", red
		}
		s.b.WriteString(s.paint(as, mark) + "  " + pad(r.Name, 10) + "  " + s.cut(r.About.String(), s.width-19) + "\n")
		for _, stop := range r.Stops {
			s.say("       ", fmt.Sprintf("%s:%d  %s", stop.Note, stop.Line, stop.Words))
		}
	}
	s.gap()
	if !view.AllMet(list) && slices.ContainsFunc(v.Snags, func(x *view.SnagView) bool { return x.Open && x.Source == fact.FromDue }) {
		s.say("", "Where work touched nothing that a check looks at, its line may say \"asks for nothing\", or \"asks for\" and the checks that it does need.")
	}
	s.say("", "This checks the record, not the vehicle: the rules of your country, its inspection and licensed practice have the last word.")
}

// openMajors names what is major and open, which most countries let nobody drive with for long.
func openMajors(v *view.View) string {
	majors := pick.Where(v.Snags, func(s *view.SnagView) bool { return s.Open && s.ToDrive == note.Major })
	return idList(pick.Map(majors, func(s *view.SnagView) string { return cmp.Or(s.ID, note.PlainWords(s.Words)) }))
}
