package check

import (
	"fmt"
	"strings"

	"guidecoat/journal"
	"guidecoat/journal/note"
	"guidecoat/journal/pick"
	"guidecoat/journal/problem"
	"guidecoat/journal/source"
)

var ofFiles = []*Check{
	{
		Name: journal.NoCard, Severity: problem.Error,
		Summary: "a build without its job card, build.md",
		Explain: "The job card names the build and its currency, and without it no figure can be worked out. " +
			"Write a build.md in the folder of the notes; `guidecoat note --build NAME` starts one.",
		Example:   "wrong|the folder of the notes has no build.md\nright|---\nright|stage: rear axle\nright|---\n",
		Elsewhere: true,
		Message:   "this build has no job card, build.md",
		Help:      "Start one with `guidecoat note --build NAME`.",
	},
	{
		Name: journal.Unreadable, Severity: problem.Error,
		Summary: "a file or folder that could not be read",
		Explain: "What stands in it counts nowhere, so every figure may be wrong. " +
			"Mostly it belongs to another user of the computer, or is a link to something that was moved away. " +
			"A link that leads out of the folder is not followed, so that nothing else on your computer can ever get onto a page.",
		Example:   "wrong|notes/2026-04-11.md is a link to a file that is gone\nright|---\nright|stage: rear axle\nright|---\n",
		Elsewhere: true,
		Message:   "{word} cannot be read: {why}",
		Help:      "Allow it to be read, or take it out of the build.",
	},
	{
		Name: note.NotUTF8, Severity: problem.Error,
		Summary: "a byte that is not UTF-8 text, or a file that is UTF-16",
		Explain: "Notes are read as UTF-8, which every current editor can write. " +
			"A byte that is something else shows as the wrong character, or belongs to a file that is no text at all. " +
			"Open the file in an editor and save it as UTF-8.",
		Example:   "wrong|Måla i gult, saved as Latin-1\nright|Måla i gult, saved as UTF-8\n",
		Elsewhere: true,
		Say: func(f source.Fault) (string, string) {
			if f.Word != "" {
				return "the file is " + f.Word + ", not UTF-8, and nothing of it is read", "Save the file as UTF-8."
			}
			return fmt.Sprintf("the byte 0x%02X is not UTF-8", f.Span.Text()), "Save the file as UTF-8."
		},
	},
	{
		Name: note.ControlCharacter, Severity: problem.Error,
		Summary: "a character that commands a machine and is no text, or line ends of an old sort",
		Explain: "Such characters come with pasted text or a broken file, cannot be seen, and end a line or hide words in some programs. " +
			"A line of front matter that has one is left out.",
		Example: "---\nstage: rear axle\n---\nwrong|The beam\x1b[2J is out.\nright|The beam is out.\n",
		Message: "{why}",
	},
	{
		Name: note.TooLarge, Severity: problem.Error,
		Summary: "a note too large to be read",
		Explain: "A year of sessions fits into one file many times over, so a larger one is hardly a note. " +
			"It is left out whole. Part it, or give it a name that does not end in .md.",
		Example:   "wrong|2026-04-11.md holds 5 MiB of text\nright|---\nright|stage: rear axle\nright|---\n",
		Elsewhere: true,
		Message:   fmt.Sprintf("the file is larger than %d MiB", note.MaxSize>>20),
		Help:      "Part it into several notes.",
	},
	{
		Name: note.TooTangled, Severity: problem.Error,
		Summary: "a shape of Markdown too tangled to be read in good time",
		Explain: "Hundreds of quotes or lists inside each other, or thousands of brackets and stars in one paragraph, take a Markdown reader minutes, and no builder writes them. " +
			"Such a paragraph is left out; where one line of a note nests too deeply, all of the note's words are.",
		Example: "# Beam out\n\nwrong|" + strings.Repeat(">", 120) + " quoted\nright|> > quoted twice\n",
		Say: func(f source.Fault) (string, string) {
			if f.Why != "" {
				return f.Why, f.Help
			}
			return "this is too tangled to be read as Markdown",
				"Part it with empty lines, or put it into a fenced block, where Markdown means nothing."
		},
	},
	{
		Name: note.UnclosedComment, Severity: problem.Error,
		Summary: "an HTML comment that never ends",
		Explain: "What stands between <!-- and --> is hidden from every page. Where nothing ends a comment, all the rest of the note is hidden, its snags too; " +
			"in front matter the rest of the line is, since a comment there ends on its own line.",
		Example: "wrong|Drain tube cleared. <!-- ask about the beam\nright|Drain tube cleared. <!-- ask about the beam -->\n\n- [ ] job drain-tube: second one still blocked\n",
		Say: func(f source.Fault) (string, string) {
			how := pick.Either(f.Why != "", "does not end: "+f.Why, "never ends, so all that follows is hidden")
			return "a comment begins here and " + how, "Write \"-->\" where it ends, or \"\\<!--\" if it is no comment."
		},
	},
	{
		Name: journal.FolderAsNote, Severity: problem.Error,
		Summary: "a folder named like a note",
		Explain: "A name that ends in .md should be a note, but here it is a folder, mostly made by unpacking or synchronising. " +
			"The notes in it are read; rename the folder so that nobody takes it for one.",
		Example: "wrong|-- 2026-04-11.md/2026-04-11.md --\nright|-- 2026-04/2026-04-11.md --\n---\nstage: rear axle\n---\n",
		Message: "{word} is a folder, not a note",
		Help:    "Give the folder a name without .md.",
	},
	{
		Name: journal.NoteInSite, Severity: problem.Error,
		Summary: "a note in a folder that guidecoat published",
		Explain: "A folder that `publish` wrote holds a hidden file `.guidecoat` and is not read, so a note saved into it would count for nothing. " +
			"Move the note to the build's folder. If the folder was never a site, delete its `.guidecoat`, and its notes are read.",
		Example:   "wrong|site/2026-04-12.md lies beside site/.guidecoat\nright|-- 2026-04-12.md --\nright|---\nright|stage: rear axle\nright|---\n",
		Elsewhere: true,
		Message:   "{word} lies in a folder that guidecoat published, where no note is read",
		Help:      "Move it out of that folder, beside build.md for instance.",
	},
	{
		Name: journal.LinkedFolder, Severity: problem.Information,
		Summary: "a link to a folder, which is not followed",
		Explain: "A link can lead out of the build or round in a circle, so links to folders are not followed. " +
			"Put the folder itself here if its notes and pictures belong to the build.",
		Example:   "wrong|photos is a link to /home/me/pictures\nright|-- 2026-04-11.md --\nright|[the test sheet](papers/test.md)\nright|-- papers/test.md --\nright|---\nright|page: The test sheet\nright|---\n",
		Elsewhere: true,
		Message:   "{word} is a link to a folder and is not followed",
		Help:      "Put the folder itself here if it belongs to the build.",
	},
	{
		Name: journal.LeftAlone, Severity: problem.Information,
		Summary: "a Markdown file that is neither a session nor a page",
		Explain: "A note is a session if its name begins with a date or it has a `date`, and a page of the site if it has a `page`. " +
			"Any other is left alone, which is right for a list of your own.",
		Example: "-- 2026-04-11.md --\n---\nstage: rear axle\n---\n-- ideas.md --\nright|---\nright|page: Ideas\nright|---\nPaint the calipers?\n",
		Say: func(f source.Fault) (string, string) {
			if f.Why != "" {
				return quote(f.Word) + " is left alone, since " + f.Why, "Rename it if it should count."
			}
			return quote(f.Word) + " is neither a session nor a page, and is left alone",
				"Begin its name with a date, or write \"page: TITLE\" in its front matter, if it should count."
		},
	},
	{
		Name: journal.UndatedItems, Severity: problem.Warning,
		Summary: "a file without a date that holds task-list items",
		Explain: "Only the items of sessions are snags, and a session has a date. " +
			"What stands in a list of your own is outstanding nowhere; a list of your own that is meant so has other points, such as `- buy grease`.",
		Example: "wrong|-- todo.md --\nright|-- 2026-04-11.md --\n- [ ] temporary exhaust-hanger: hung on wire\n",
		Message: "{word} holds items, but no date makes it a session, and they count nowhere",
		Help:    "Begin its name with a date, or move the items into a session.",
	},
	{
		Name: journal.OtherEnding, Severity: problem.Warning,
		Summary: "a file that looks like a note, but whose name does not end in .md",
		Explain: "Only files whose names end in .md, in small letters, are read. " +
			"What stands in this one counts nowhere.",
		Example: "wrong|-- 2026-04-11.MD --\nright|-- 2026-04-11.md --\n---\nstage: rear axle\n---\n",
		Message: "{word} looks like a note but is not read, since {why}",
		Help:    "Rename it so that it ends in .md, in small letters.",
	},
	nothingHere,
}
