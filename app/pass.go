package app

import (
	"errors"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/passon"
	"trailfieldkit/fieldkit/passon/qr"
)

// passScreen passes one position, counter card or interchange on to another phone:
// as a square for its camera, as a link, as a small file. The link holds all of it
// behind the "#", which no server gets to see; the other phone needs no signal.
type passScreen struct {
	app.Compo
	view passView
	told string
}

// widest is how wide a square is drawn at most, in points; beside it stand the margins
// of the page.
const (
	widest  = 560
	margins = 32
)

// passView is what the screen draws.
type passView struct {
	bundle passon.Bundle
	code   string
	square qr.Square // of no size if the code does not fit
	err    error     // why it does not fit, or is not there
}

func (s *passScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *passScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

// OnResize draws the square anew: its size follows the dots of the screen.
func (s *passScreen) OnResize(app.Context) {}

func (s *passScreen) load(ctx app.Context) {
	if kept.phase != open {
		return
	}
	s.view = viewPass(kept.kit(), takeAddress(), param(ctx, "position"), param(ctx, "part"), param(ctx, "link"))
}

// takeAddress is the address of the screen that takes a code, up to it.
func takeAddress() string {
	if app.IsServer {
		return link("/take") + "#"
	}
	return originOf(address()) + link("/take") + "#"
}

// viewPass packs what is asked for: one of the three IDs.
func viewPass(k fieldkit.Kit, address, position, part, linkID string) passView {
	var v passView
	switch {
	case position != "":
		v.bundle, v.err = passon.Position(k, position)
	case linkID != "":
		v.bundle, v.err = passon.Link(k, linkID)
	default:
		v.bundle, v.err = passon.Card(k, part)
	}
	if v.err != nil {
		return v
	}
	if v.code, v.err = passon.Encode(v.bundle); v.err != nil {
		return v
	}
	v.square, v.err = qr.Link(address, v.code)
	return v
}

// drawing is the square for this screen.
func (v passView) drawing() string {
	most, ratio := float64(widest), 1.0
	if app.IsClient {
		most = min(most, app.Window().Get("innerWidth").Float()-margins)
		ratio = app.Window().Get("devicePixelRatio").Float()
	}
	return v.square.SVG("Code to scan: "+string(v.bundle.Kind())+" "+v.bundle.Title(), v.square.Width(most, ratio))
}

func (s *passScreen) Render() app.UI {
	v := s.view
	p := page{title: "Pass on", sub: v.bundle.Title(), dest: "/rig", back: link("/rig")}
	if v.code == "" {
		p.body = []app.UI{problem(v.err)}
		return frame(p)
	}
	p.body = []app.UI{
		app.P().Class("lead").Text(capital(string(v.bundle.Kind())) + ": " + v.bundle.Title()),
		app.If(v.square.Size > 0, func() app.UI {
			return app.Div().Class("block").Body(
				app.Raw(v.drawing()),
				app.P().Text("Hold it before the camera of the other phone and open the link it finds. The app must have been opened there once; neither phone needs signal. Nothing is added there without a tap."),
			)
		}),
		problem(tooLong(v.err)),
		app.Div().Class("two").Body(
			button("quiet", "Share the link", "share", func(ctx app.Context) {
				shareText(ctx, v.bundle.Title(), takeAddress()+v.code, s.tell)
			}),
			button("quiet", "Save as a small file", "save", func(ctx app.Context) {
				saveFile(ctx, "pass-on-"+today().String()+".txt", "text/plain", []byte(takeAddress()+v.code+"\n"), s.tell)
			}),
		),
		app.If(s.told != "", func() app.UI { return app.P().Class("note ok").Role("status").Text(s.told) }),
		bundleFacts(v.bundle),
		app.P().Class("soft").Text("What is passed on: what is listed here, with its notes. Not passed on: the log, photos, prices, stock. On an iPhone the link opens in the browser: copy it there and paste it in the app, under Kit."),
	}
	return frame(p)
}

func (s *passScreen) tell(_ app.Context, said string) { s.told = said }

// tooLong says first what is left to do where the square cannot be drawn.
func tooLong(err error) error {
	var e *fieldkit.Error
	if errors.As(err, &e) && e.Kind == fieldkit.TooBig {
		return &fieldkit.Error{Kind: e.Kind, What: e.What, Do: "share the link or save it as a small file, and send that; the other phone opens it under Kit, Open a backup or a code"}
	}
	return err
}

// bundleFacts lists what a bundle holds.
func bundleFacts(b passon.Bundle) app.UI {
	k := b.Kit
	var body []app.UI
	for _, p := range k.Positions.All() {
		rig, _ := k.RigOf(p)
		system, _ := k.System(p.System)
		body = append(body, section("Position", facts(
			fact{"Position", p.Title()}, fact{"System", system.Name}, fact{"Rig", rig.Name}, fact{"Pieces", itoa(p.Quantity)},
			fact{"Fitted", fittedWhen(p, kept.first())}, fact{"Proven", proofWords(p.Proof)}, fact{"Note", p.Note},
		)))
	}
	for _, p := range k.Parts.All() {
		donor, _ := k.Donor(p.Donor)
		list := []fact{{"From donor", donor.Title()}}
		for _, n := range p.Numbers {
			list = append(list, fact{"Number", n.Value + ", " + numberWords(n)})
		}
		for _, m := range p.Measurements {
			list = append(list, fact{m.Name, measurementWords(m, kept.first())})
		}
		list = append(list, fact{"Note", p.Note})
		body = append(body, section(capital(p.Name), facts(list...)))
	}
	for _, l := range k.Links.All() {
		name := func(id string) string { p, _ := k.Part(id); return p.Name }
		body = append(body, app.Div().Class("note").Body(
			app.P().Text(linkSays(l, name)),
			app.If(len(l.Changes) > 0, func() app.UI { return bullets(l.Changes) }),
			app.P().Class("soft").Text(proofWords(&fieldkit.Proof{How: l.Evidence, On: l.On, By: l.By, Note: l.Note})),
		))
	}
	return app.Div().Class("block").Body(body...)
}
