package app

import (
	"context"
	"encoding/json"
	"slices"
	"strconv"
	"time"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// thenScreen shows a position as it was on a day, and every change of it since the kit
// was begun.
type thenScreen struct {
	app.Compo
	id, on string // the position; the day as typed
	view   thenView
	busy   bool
	err    error
}

// thenView is what the screen draws.
type thenView struct {
	title   string
	when    string // of which state it is
	early   bool   // nothing was written down by that day: it is how the kit was begun
	found   bool   // the position was there
	part    string
	facts   []fact
	differs []string // what is otherwise today
	changes []thenRow
}

// thenRow is one change of the position.
type thenRow struct {
	what, when string
	seq        uint64
}

func (s *thenScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *thenScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *thenScreen) load(ctx app.Context) {
	session := kept.session
	if session == nil {
		return
	}
	s.id = param(ctx, "id")
	if s.on = param(ctx, "on"); s.on == "" && param(ctx, "entry") == "" {
		s.on = today().AddDays(-monthBack).String()
	}
	day, err := fieldkit.ParseDate(s.on)
	if s.on != "" && err != nil {
		s.err = err
		return
	}
	entry, _ := strconv.ParseUint(param(ctx, "entry"), 10, 64) // none is 0: the day counts
	id, first := s.id, kept.first()
	s.busy, s.err = true, nil
	ctx.Async(func() {
		view, err := lookBack(context.Background(), session, id, day, entry, first)
		ctx.Dispatch(func(app.Context) { s.busy, s.view, s.err = false, view, err })
	})
}

// monthBack is how far back the screen looks when no day is asked for.
const monthBack = 30

// lookBack reads the journal for a position as it was after an entry, or at the end of a
// day.
func lookBack(ctx context.Context, session *journal.Session, id string, day fieldkit.Date, entry uint64, first fieldkit.System) (thenView, error) {
	entries, err := session.History(ctx, int(session.Seq()))
	if err != nil {
		return thenView{}, err
	}
	slices.Reverse(entries)
	v := thenView{}
	if entry == 0 {
		end := fieldkit.Moment{Time: time.Date(day.Year, time.Month(day.Month), day.Day, 23, 59, 59, 0, time.Local)}
		v.when = day.Show()
		if entry = journal.LastBy(entries, end); entry == 0 && len(entries) > 0 {
			entry, v.early = entries[0].Seq, true
		}
	}
	kit, err := session.KitAt(ctx, entry)
	if err != nil {
		return thenView{}, err
	}
	for _, e := range entries {
		if e.Seq == entry && v.when == "" {
			v.when = capital(e.What)
			if !e.At.IsZero() {
				v.when = e.At.Local().Format("2 Jan 2006 15:04") + ": " + v.when
			}
		}
	}
	fillThen(&v, kit, session.Kit(), id, first)
	v.changes = changesOf(entries, id)
	return v, nil
}

// fillThen says how the position was, and what is otherwise now.
func fillThen(v *thenView, then, now fieldkit.Kit, id string, first fieldkit.System) {
	p, ok := then.Position(id)
	today, stays := now.Position(id)
	switch {
	case ok:
		v.title = capital(p.Title())
	case stays:
		v.title = capital(today.Title())
	}
	if v.found = ok; !ok {
		return
	}
	v.part, v.facts = thenFacts(then, p, first)
	if !stays {
		v.differs = append(v.differs, "the position was deleted since")
		return
	}
	part, facts := thenFacts(now, today, first)
	if part != v.part {
		v.differs = append(v.differs, "fitted is "+part)
	}
	for _, is := range facts {
		i := slices.IndexFunc(v.facts, func(f fact) bool { return f.name == is.name })
		switch {
		case i < 0 && is.value != "":
			v.differs = append(v.differs, uncapital(is.name)+": "+is.value)
		case i >= 0 && v.facts[i].value != is.value:
			v.differs = append(v.differs, uncapital(is.name)+": "+orNothing(is.value))
		}
	}
	for _, was := range v.facts {
		if was.value != "" && !slices.ContainsFunc(facts, func(f fact) bool { return f.name == was.name }) {
			v.differs = append(v.differs, uncapital(was.name)+": nothing")
		}
	}
}

func orNothing(text string) string {
	if text == "" {
		return "nothing"
	}
	return text
}

// thenFacts are the part at a position and all that was known of it.
func thenFacts(k fieldkit.Kit, p fieldkit.Position, first fieldkit.System) (name string, list []fact) {
	part, ok := k.Part(p.Part)
	if name = part.Name; !ok {
		name = "nothing known"
	}
	donor, _ := k.Donor(part.Donor)
	kind, _ := data.Catalog().PartKind(p.Kind)
	list = []fact{
		{"Kind", kind.Name}, {"From donor", donor.Title()}, {"Pieces here", itoa(p.Quantity)},
		{"Fitted", fittedWhen(p, first)}, {"Proven", proofWords(p.Proof)}, {"Note", p.Note}, {"About the part", part.Note},
	}
	for i, n := range part.Numbers {
		list = append(list, fact{"Number " + itoa(i+1), n.Value})
	}
	for _, m := range part.Measurements {
		list = append(list, fact{capital(m.Name), measurementWords(m, first)})
	}
	return name, list
}

// changesOf lists the entries that changed a position or the part that was fitted there,
// the newest first. Entries come the oldest first.
func changesOf(entries []journal.Entry, id string) (rows []thenRow) {
	parts := map[string]bool{}
	for _, e := range entries {
		touches := e.Kit != nil
		for _, c := range e.Changes {
			switch c.Collection {
			case "positions":
				if c.ID == id {
					touches = true
					parts[partIn(c.Before)], parts[partIn(c.After)] = true, true
				}
			case "parts":
				touches = touches || c.ID != "" && parts[c.ID]
			}
		}
		if touches {
			row := thenRow{what: capital(e.What), seq: e.Seq}
			if !e.At.IsZero() {
				row.when = e.At.Local().Format("2 Jan 2006 15:04")
			}
			rows = append(rows, row)
		}
	}
	slices.Reverse(rows)
	return rows
}

// partIn reads which part a position's record names.
func partIn(raw json.RawMessage) string {
	var p struct {
		Part string `json:"part"`
	}
	_ = json.Unmarshal(raw, &p) // a record that cannot be read names none
	return p.Part
}

func (s *thenScreen) Render() app.UI {
	v := s.view
	back := link("/rig/position", "id", s.id)
	var body []app.UI
	if s.id != "" {
		body = append(body, s.asked())
	}
	body = append(body, problem(s.err))
	switch {
	case s.busy && v.title == "":
		body = append(body, app.P().Class("soft").Text("Reading the journal …"))
	case s.err != nil:
	case !v.found:
		body = append(body, emptyLine("There was no such position in this kit then."))
	default:
		body = append(body, section(capital(v.when),
			app.If(v.early, func() app.UI {
				return app.P().Class("soft").Text("Nothing was written down by then: this is how the kit was begun.")
			}),
			app.P().Class("big").Text(v.part), facts(v.facts...)))
		if len(v.differs) > 0 {
			body = append(body, section("Otherwise today", bullets(v.differs)))
		} else {
			body = append(body, section("Otherwise today", app.P().Class("soft").Text("Nothing of this has changed since.")))
		}
	}
	if len(v.changes) > 0 {
		body = append(body, section("Changes, the latest first", app.Ul().Class("list").Body(app.Range(v.changes).Slice(func(i int) app.UI {
			row := v.changes[i]
			return openRow(link("/rig/position/then", "id", s.id, "entry", strconv.FormatUint(row.seq, 10)), row.what, row.when, "")
		}))))
	}
	title := v.title
	if title == "" {
		title = "Position"
	}
	return frame(page{title: title, sub: "as it was", dest: "/rig", back: back, body: body})
}

// asked is the day that is asked for, with a few keys for common ones.
func (s *thenScreen) asked() app.UI {
	hint := "2026-05-14 or 14 May 2026"
	if d, err := fieldkit.ParseDate(s.on); err == nil {
		hint = d.Show()
	}
	key := func(label string, days int) app.UI {
		on := today().AddDays(-days).String()
		return app.A().Class("quiet").Href(link("/rig/position/then", "id", s.id, "on", on)).Text(label)
	}
	return app.Div().Class("block").Body(
		&field{Form: "then", Name: "on " + s.id, Label: "As it was on", Hint: hint, Value: s.on, OnType: func(ctx app.Context, text string) {
			if d, err := fieldkit.ParseDate(text); err == nil {
				rewriteQuery("id", s.id, "on", d.String())
				s.load(ctx)
			}
		}},
		app.Div().Class("row").Body(key("A month ago", monthBack), key("Half a year ago", 182), key("A year ago", 365)),
	)
}
