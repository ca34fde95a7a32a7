package app

import (
	"fmt"
	"math"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/chart"
	"trailfieldkit/fieldkit/likelihood"
)

// wearScreen shows the readings at a position over distance or engine hours, with the line through
// them, its interval and the limit.
type wearScreen struct {
	app.Compo
	view wearView
}

// wearView is what the screen draws.
type wearView struct {
	found    bool
	position fieldkit.Position
	rig      fieldkit.Rig
	read     bool // there are readings
	line     likelihood.WearLine
	picture  string
	rows     [][]string // of the table behind the picture
}

func (s *wearScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *wearScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *wearScreen) load(ctx app.Context) {
	s.view = viewWear(kept.kit(), data.Catalog(), kept.first(), param(ctx, "position"))
}

func viewWear(k fieldkit.Kit, cat fieldkit.Catalog, first fieldkit.System, id string) (v wearView) {
	if v.position, v.found = k.Position(id); !v.found {
		return v
	}
	v.rig, _ = k.RigOf(v.position)
	if v.line, v.read = likelihood.WearAt(k, cat, v.position); !v.read {
		return v
	}
	v.picture = chart.Trend(capital(wearOver(v.line))+": "+v.rig.Name+", "+v.position.Title(), wearSeries(v.line, first))
	for _, r := range v.line.Readings {
		at := v.line.RunAt(r)
		v.rows = append(v.rows, []string{runText(v.line, at, first) + ", " + r.On.Show(), r.Value.Show(first), v.lineAt(at, first)})
	}
	if way, _, _, _, _ := v.line.ToLimit(); v.line.Known && way > 0 {
		at := v.line.Now + way
		v.rows = append(v.rows, []string{runText(v.line, at, first), "limit " + v.line.Measure.Limit.Show(first), v.lineAt(at, first)})
	}
	return v
}

// wearOver names the picture by the meter that its line goes by.
func wearOver(w likelihood.WearLine) string {
	if w.ByHours {
		return "wear over engine hours"
	}
	return "wear over distance"
}

// meterName heads the meter's column.
func meterName(w likelihood.WearLine) string {
	if w.ByHours {
		return "Engine hours"
	}
	return "Odometer"
}

// meterWords say what the line goes by.
func meterWords(w likelihood.WearLine) string {
	if w.ByHours {
		return "It goes by the hour meter, since this part wears while the engine runs; how fast is as it was so far."
	}
	return "It goes by the odometer as the rig has been driven so far; a harder trip wears faster."
}

// runText writes a reading of the line's meter.
func runText(w likelihood.WearLine, at likelihood.Run, first fieldkit.System) string {
	if w.ByHours {
		return fmt.Sprintf("%.0f h", float64(at))
	}
	return at.Distance().Show(first)
}

// lineAt is the line at a meter reading and its interval, nothing where there is none.
func (v wearView) lineAt(at likelihood.Run, first fieldkit.System) string {
	if !v.line.Known {
		return ""
	}
	low, line, high := v.line.Band(at)
	return v.base(line, first) + " (" + v.base(low, first) + " to " + v.base(high, first) + ")"
}

// base writes a reading in base units.
func (v wearView) base(y float64, first fieldkit.System) string {
	return fieldkit.Value{Dim: v.line.Measure.Limit.Dim, Base: int64(math.Round(y))}.Show(first)
}

// bandSteps is how finely the band is drawn.
const bandSteps = 24

// wearSeries is what the picture shows: the meter in hours, or in the unit of distance
// read first, readings in base units. The line goes on until the limit is sure to be met,
// at most as far again as the readings reach.
func wearSeries(w likelihood.WearLine, first fieldkit.System) chart.Series {
	axis, unit := "odometer, km", 1.0
	switch {
	case w.ByHours:
		axis = "engine hours"
	case first == fieldkit.Inch:
		axis, unit = "odometer, mi", float64(fieldkit.Mile)/float64(fieldkit.Kilometre)
	}
	far := func(run likelihood.Run) float64 { return float64(run) / unit }
	s := chart.Series{
		Limit: float64(w.Measure.Limit.Base), Now: far(w.Now), X: axis, Y: capital(w.Measure.Name),
		Figure: func(y float64) string {
			return fieldkit.Value{Dim: w.Measure.Limit.Dim, Base: int64(math.Round(y))}.Show(first)
		},
		Far: func(x float64) string { return fmt.Sprintf("%.0f", x) },
	}
	for _, r := range w.Readings {
		s.Points = append(s.Points, chart.Point{X: far(w.RunAt(r)), Y: float64(r.Value.Base)})
	}
	begin, last := w.Readings[0], w.Readings[len(w.Readings)-1]
	s.Said = fmt.Sprintf("%s from %s at %s to %s at %s; limit %s; %s", counted(len(w.Readings), "reading"), begin.Value.Show(first), runText(w, w.RunAt(begin), first),
		last.Value.Show(first), runText(w, w.RunAt(last), first), w.Measure.Limit.Show(first), limitWords(w, first))
	if !w.Known {
		return s
	}
	way, _, high, endless, sure := w.ToLimit()
	from, end := w.RunAt(begin), w.Now+way
	if sure && !endless {
		end = w.Now + high
	}
	end = min(max(end, w.Now), w.Now+(w.Now-from))
	for i := range bandSteps + 1 {
		at := from + (end-from)*likelihood.Run(i)/bandSteps
		low, line, high := w.Band(at)
		s.Band = append(s.Band, chart.Span{X: far(at), Low: low, Line: line, High: high})
	}
	return s
}

func (s *wearScreen) Render() app.UI {
	v := s.view
	if !v.found {
		return frame(page{title: "Wear", dest: "/log", back: link("/log/says"), body: []app.UI{
			emptyLine("There is no such position in this kit. It may have been deleted, or the link is for another kit."),
		}})
	}
	p := page{title: capital(v.position.Title()), sub: v.rig.Name + ", " + wearOver(v.line), dest: "/log", back: link("/rig/position", "id", v.position.ID)}
	add := goTo("act wide no-print", "Write down a reading", link("/log/reading", "position", v.position.ID))
	if !v.read {
		p.body = []app.UI{emptyLine("There is no reading with a meter of the part that is fitted here. Three of them make a line."), add}
		return frame(p)
	}
	p.body = []app.UI{app.Div().Class("paper block").Body(
		app.P().Class("big figures").Text(capital(limitWords(v.line, kept.first()))),
		pictured(v.picture, []string{meterName(v.line), "Reading", "Line (nine times in ten)"}, v.rows),
		app.P().Class("soft").Text("Discs are readings. The line goes through them by least squares, the shade is where it lies nine times in ten, the broken line is the limit: a starting guess, the maker's figure stands. The upright line is where the rig is now. "+meterWords(v.line)),
		goTo("quiet wide no-print", "On the next trip", link("/rig/position", "id", v.position.ID)),
	), add}
	return frame(p)
}
