package app

import (
	"fmt"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/driveline"
)

// drivelineScreen shows which shaft or joint of a rig breaks first, and which would be
// next if it were made stronger.
type drivelineScreen struct {
	app.Compo
	found  bool
	rig    fieldkit.Rig
	report driveline.Report
}

func (s *drivelineScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *drivelineScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

func (s *drivelineScreen) load(ctx app.Context) {
	k := kept.kit()
	if s.rig, s.found = k.Rig(param(ctx, "rig")); s.found {
		s.report = driveline.Check(k, s.rig)
	}
}

func (s *drivelineScreen) Render() app.UI {
	p := page{title: "Driveline", dest: "/rig", back: link("/rig", "rig", s.rig.ID), sub: s.rig.Name}
	if !s.found {
		p.body = []app.UI{emptyLine("There is no such rig in this kit. It may have been deleted, or the link is for another kit.")}
		return frame(p)
	}
	r := s.report
	if r.Weakest == nil {
		p.body = append(p.body, emptyLine("No part's margin is known yet. Write down the engine, the gears and the axles, count splines and read the steel of the shafts."))
	} else {
		p.body = append(p.body, s.weakest())
	}
	p.body = append(p.body, goTo("act wide no-print", "Engine, gears and axles", link("/rig/drive/edit", "rig", s.rig.ID)))
	if len(r.Links) > 0 {
		p.body = append(p.body, section("Margins, the weakest first", s.links()))
	}
	if len(r.Open) > 0 {
		p.body = append(p.body, section("Not known yet", s.open()))
	}
	p.body = append(p.body, app.P().Class("soft").Text("Torque in the lowest gear, or where the tyres slip if that comes first, against the torque at which a shaft begins to twist for good, or a joint's rating. Shock, worn splines and joints at full lock take more away: a margin compares parts of one rig and promises nothing. The maker's figures stand."))
	return frame(p)
}

func (s *drivelineScreen) weakest() app.UI {
	w, next := s.report.Weakest, s.report.Next
	body := []app.UI{
		app.P().Class("big").Text(capital(w.Title)),
		app.P().Text(marginWords(*w)),
	}
	if next != nil {
		body = append(body, app.P().Text("Once that is stronger, the next is "+next.Title+": "+uncapital(marginWords(*next))))
	}
	return section("Weakest link", body...)
}

// marginWords compare what a part takes with what reaches it.
func marginWords(l driveline.Link) string {
	first := kept.first()
	if l.AtLeast() {
		return fmt.Sprintf("Margin %.2f or more: at most %s reach it by %s, and it takes %s. How much really does is not known. Missing: %s.",
			l.Margin, l.Torque.Both(first), l.Limit, l.Strength.Both(first), strings.Join(l.Missing, ", "))
	}
	than := "takes more than reaches it"
	if l.Margin < 1 {
		than = "gives way before the tyres slip or the engine stalls"
		if l.Limit == driveline.ByEngine {
			than = "gives way before the engine stalls"
		}
	}
	return fmt.Sprintf("Margin %.2f: %s. %s reach it by %s, and it takes %s.", l.Margin, than, l.Torque.Both(first), l.Limit, l.Strength.Both(first))
}

func (s *drivelineScreen) links() app.UI {
	list := s.report.Links
	return app.Ul().Class("list").Body(app.Range(list).Slice(func(i int) app.UI {
		l := list[i]
		margin := fmt.Sprintf("%.2f", l.Margin)
		if l.AtLeast() {
			margin = "≥ " + margin // what is said beside a row is short
		}
		return openRow(link("/rig/position", "id", l.Position), capital(l.Title), strings.Join(nonEmpty(l.Part, l.Torque.Both(kept.first())+" by "+string(l.Limit), l.How), " · "), margin)
	}))
}

func (s *drivelineScreen) open() app.UI {
	list := s.report.Open
	return app.Ul().Class("list").Body(app.Range(list).Slice(func(i int) app.UI {
		l := list[i]
		says := "Missing: " + strings.Join(l.Missing, ", ")
		if l.Torque > 0 {
			says = l.Torque.Both(kept.first()) + " by " + string(l.Limit) + " · " + says
		}
		return openRow(link("/rig/position", "id", l.Position), capital(l.Title), says, "")
	}))
}
