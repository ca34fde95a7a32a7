package app

import (
	"errors"
	"io"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
	"trailfieldkit/fieldkit/kitfile"
	"trailfieldkit/fieldkit/passon"
)

// takeScreen is where a link that was scanned or sent opens: it shows what the link
// holds and adds it on the person's word. Without a code it takes one to paste.
type takeScreen struct {
	app.Compo
	code      string
	behind    string // the code behind the address's "#" that was read last
	bundle    passon.Bundle
	disguises []kitfile.Problem // texts of it that are not what they read like
	rig       string            // the rig a position goes to; partAlone adds only its part
	paste     *form
	err       error
}

// partAlone stands for no rig: of a position only the part is added.
const partAlone = "-"

func (s *takeScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *takeScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *takeScreen) load(ctx app.Context) {
	if s.paste == nil {
		s.paste = newForm("take", nil)
	}
	if code := passon.Code(ctx.Page().URL().Fragment); code != s.behind {
		s.behind = code
		s.open(code)
	}
	if _, there := kept.kit().Rig(s.rig); !there && s.rig != partAlone {
		s.rig = firstRig(kept.kit())
	}
}

// open reads a code.
func (s *takeScreen) open(code string) {
	s.code, s.bundle, s.disguises, s.err = code, passon.Bundle{}, nil, nil
	if code == "" {
		return
	}
	if s.bundle, s.err = passon.Decode(code); s.err == nil {
		s.disguises = kitfile.CheckReading(s.bundle.Kit)
	}
}

// firstRig is the rig a position is offered to: the first of one's own.
func firstRig(k fieldkit.Kit) string {
	for _, r := range k.Rigs {
		if r.Owner == "" {
			return r.ID
		}
	}
	return partAlone
}

func (s *takeScreen) Render() app.UI {
	p := page{title: "Passed on to you", sub: s.bundle.Title(), dest: "/rig", back: link("/rig")}
	if s.bundle.Kind() == passon.Nothing && s.err != nil && kept.phase == choosing {
		return app.Main().Class("start").DataSet("phase", string(choosing)).Body(
			app.H1().Text("Passed on to you"), problem(s.err), goTo("act wide", "Go on without it", link("/rig")))
	}
	if s.bundle.Kind() == passon.Nothing {
		p.body = []app.UI{problem(s.err), s.askForCode()}
		return frame(p)
	}
	if kept.phase == choosing {
		return app.Main().Class("start").DataSet("phase", string(choosing)).Body(
			app.H1().Text("Passed on to you: "+s.bundle.Title()),
			bundleFacts(s.bundle),
			disguised(s.disguises),
			app.If(kept.gone != "", func() app.UI { return goneNotice() }),
			app.If(kept.gone == "", func() app.UI {
				return app.P().Text("There is no kit on this phone yet. Begin one, then add this to it.")
			}),
			button("act tall wide", "Begin my kit", "own", beginOwn),
		)
	}
	p.body = []app.UI{
		app.P().Class("lead").Text(capital(string(s.bundle.Kind())) + ": " + s.bundle.Title()),
		app.P().Class("soft").Text("Somebody passed this on. It is not in your kit yet; check it against the part in hand before you rely on it."),
		bundleFacts(s.bundle),
		disguised(s.disguises),
		intoDemo(),
		s.place(),
		problem(s.err),
		button("act wide", "Add it to "+map[bool]string{true: "the demo kit", false: "my kit"}[kept.which == demoKit], "add "+s.code, s.add),
		goTo("quiet wide", "Leave it", link("/rig")),
	}
	return frame(p)
}

// beginOwn opens one's own kit where one is: what was passed on stays in sight.
func beginOwn(ctx app.Context) { kept.begin(ctx, ownKit) }

// intoDemo warns that what is added to the demo kit goes with it.
func intoDemo() app.UI {
	if kept.which != demoKit {
		return app.Div().Hidden(true)
	}
	return app.Div().Class("note warn").Body(
		app.P().Text("You are looking at the demo kit. What is added to it goes when it is thrown away."),
		app.Div().Class("row").Body(button("quiet", "Open my own kit first", "own first", beginOwn)),
	)
}

// place asks which rig a position goes to.
func (s *takeScreen) place() app.UI {
	if s.bundle.Kind() != passon.OnePosition {
		return app.Div().Hidden(true)
	}
	var options []option
	for _, r := range kept.kit().Rigs {
		options = append(options, option{r.ID, rigName(r)})
	}
	if s.bundle.Kit.Parts.Len() > 0 {
		options = append(options, option{partAlone, "no rig, the part alone"})
	}
	return app.Div().Class("field").Body(app.Span().Class("label").Text("On which rig"),
		choice("On which rig", "rig", s.rig, options, func(_ app.Context, v string) { s.rig = v }))
}

func (s *takeScreen) askForCode() app.UI {
	f := s.paste
	if f == nil {
		return app.Div().Hidden(true)
	}
	return section("Open a link",
		app.P().Text("Scan the square on the other phone with this phone's camera, or paste the link you were sent."),
		f.text("link", "Link", "it begins with https:// and holds a #"),
		button("act wide", "Open it", "paste", func(app.Context) {
			s.open(passon.Code(f.typed("link")))
			if s.err == nil && s.code == "" {
				s.err = badField("there is no link yet", "paste it first")
			}
			if s.err == nil {
				f.startOver()
			}
		}),
	)
}

func (s *takeScreen) add(ctx app.Context) {
	b, rig := s.bundle, s.rig
	if b.Kind() == passon.OnePosition && rig == partAlone {
		b.Kit.Rigs, b.Kit.Systems, b.Kit.Positions = nil, nil, fieldkit.List[fieldkit.Position]{}
	}
	var added passon.Added
	kept.do(ctx, "Added what was passed on: "+b.Title(), func(e *journal.Edit) error {
		var err error
		if added, err = passon.Into(e.Kit(), b, rig, newID); err != nil {
			return err
		}
		if len(added.Put) == 0 {
			return badField("it is in your kit already, word for word", "nothing was added")
		}
		for _, r := range added.Put {
			e.Put(r)
		}
		return nil
	}, func(ctx app.Context, err error) {
		if s.err = err; err == nil {
			goOn(ctx, whereIs(added.Main))
		}
	})
}

// whereIs is the address of the screen that shows a record.
func whereIs(r fieldkit.Record) string {
	switch r := r.(type) {
	case fieldkit.Position:
		return link("/rig/position", "id", r.ID)
	case fieldkit.Part:
		return link("/counter/card", "part", r.ID)
	case fieldkit.Link:
		return link("/rig/link/edit", "id", r.ID, "part", r.For)
	}
	return link("/rig")
}

// codeInFile finds the code in a small file that was passed on; none in other files.
func codeInFile(file *io.SectionReader) string {
	if file.Size() > 4*passon.MaxCode {
		return ""
	}
	raw := make([]byte, file.Size())
	if _, err := file.ReadAt(raw, 0); err != nil && !errors.Is(err, io.EOF) {
		return "" // whoever reads on says so
	}
	text := strings.TrimSpace(string(raw))
	if !strings.HasPrefix(text, "http") || !strings.Contains(text, "#") {
		return ""
	}
	return passon.Code(text)
}
