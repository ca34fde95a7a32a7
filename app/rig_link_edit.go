package app

import (
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/journal"
)

// linkEditScreen adds, changes or deletes one interchange link of a part.
type linkEditScreen struct {
	app.Compo
	form   *form
	kit    fieldkit.Kit
	cat    fieldkit.Catalog
	id     string // of the link being changed, none when adding
	at     string // of the position to go back to, none if opened from elsewhere
	part   fieldkit.Part
	found  bool
	others []linkRow // the part's links besides this one
	judged judgement
}

// judgement keeps the warnings for what is chosen, so that they are worked out once
// for each choice and not while drawing.
type judgement struct {
	of    [6]string
	kit   int // revision of the kit
	list  []string
	known bool
}

func (s *linkEditScreen) OnMount(ctx app.Context) { watch(ctx, s.load) }
func (s *linkEditScreen) OnNav(ctx app.Context)   { arrive(ctx, s.load) }

// Which of the two takes the other's place.
const (
	otherTakesPlace = "other" // the other part goes in place of this one
	thisTakesPlace  = "this"
)

func (s *linkEditScreen) load(ctx app.Context) {
	if kept.phase != open {
		return
	}
	s.kit, s.cat = kept.kit(), data.Catalog()
	id, part := param(ctx, "id"), param(ctx, "part")
	l, known := s.kit.Links.Find(id)
	if known && part != l.For && part != l.With {
		part = l.For
	}
	s.part, s.found = s.kit.Part(part)
	s.found = s.found && (known || id == "")
	s.others = nil
	for _, row := range linksOf(s.kit, part) {
		if row.link.ID != id {
			s.others = append(s.others, row)
		}
	}
	fields := linkFields(l, known, part, today())
	key := "link/" + id + "/" + part
	if s.form != nil && s.form.key == key {
		follow(s.form, fields)
		return
	}
	s.id, s.at = id, param(ctx, "position")
	s.form = newForm(key, fields)
}

// linkFields is what the form starts with; part is the one it is seen from.
func linkFields(l fieldkit.Link, known bool, part string, today fieldkit.Date) map[string]string {
	if !known {
		return map[string]string{"direction": otherTakesPlace, "on": today.String()}
	}
	fields := map[string]string{
		baseField: baseOf(l), "direction": otherTakesPlace, "other": otherEnd(l, part), "grade": string(l.Grade), "changes": strings.Join(l.Changes, "\n"),
		"evidence": string(l.Evidence), "on": l.On.String(), "by": l.By, "note": l.Note,
	}
	if l.With == part {
		fields["direction"] = thisTakesPlace
	}
	return fields
}

func (s *linkEditScreen) Render() app.UI {
	title := "Add an interchange"
	if s.id != "" {
		title = "Edit interchange"
	}
	p := page{title: title, dest: "/rig", back: s.back()}
	if s.form == nil {
		return frame(p)
	}
	if !s.found {
		p.body = []app.UI{emptyLine("There is no such part or interchange in this kit. It may have been deleted, or the link is for another kit.")}
		return frame(p)
	}
	f := s.form
	p.sub = "of " + s.part.Name
	p.body = []app.UI{
		f.restoredNotice(),
		section("Which part",
			s.otherPart(),
			app.If(f.get("other") == newPart, s.newPart),
		),
		section("How well it fits",
			f.pick("grade", "Grade", gradeOptions),
			wrongLine(f, "grade"),
			app.If(f.get("grade") == string(fieldkit.OneWay), func() app.UI {
				return f.pick("direction", "Which way", []option{
					{otherTakesPlace, "the other goes in place of this one"}, {thisTakesPlace, "this one goes in place of the other"}})
			}),
			app.P().Class("note").Aria("live", "polite").Text(linkSays(s.chosen(), s.name)),
			app.If(f.get("grade") == string(fieldkit.WithChanges) || f.get("grade") == string(fieldkit.OneWay), func() app.UI {
				return f.area("changes", "What must be changed", "one a line: ream the arm, longer bolts")
			}),
			warningList(s.warnings()),
		),
		section("How sure it is",
			f.pick("evidence", "How do you know", evidenceOptions()),
			wrongLine(f, "evidence"),
			app.Details().Class("group").Open(s.id != "" || f.wrong["on"] != "").Body(
				app.Summary().Text("Since when, who says so, a note"),
				f.date("on", "Since when", today()),
				f.text("by", "Who says so", ""),
				f.area("note", "Note", ""),
			),
		),
		f.saving("Save interchange", s.save),
		app.If(s.id != "", func() app.UI { return goTo("quiet wide", "Pass on to another phone", link("/pass", "link", s.id)) }),
		app.If(s.id != "", func() app.UI { return button("danger wide", "Delete interchange", "delete "+s.id, s.delete) }),
		app.If(len(s.others) > 0, func() app.UI { return section("Others of this part", linkList(s.others, s.at)) }),
	}
	return frame(p)
}

var gradeOptions = []option{
	{string(fieldkit.DropIn), string(fieldkit.DropIn)},
	{string(fieldkit.WithChanges), string(fieldkit.WithChanges)},
	{string(fieldkit.OneWay), string(fieldkit.OneWay)},
	{string(fieldkit.DoesNotFit), string(fieldkit.DoesNotFit)},
}

// fewParts is how many parts of the same kind are offered to be tapped; more are
// chosen from a list.
const fewParts = 5

// otherPart chooses the other part: of a kind that the kit has few parts of, with one
// tap.
func (s *linkEditScreen) otherPart() app.UI {
	f := s.form
	var same []option
	for _, p := range s.kit.Parts.All() {
		if p.ID != s.part.ID && p.Kind == s.part.Kind {
			same = append(same, option{p.ID, p.Name})
		}
	}
	fresh := option{newPart, "a part not written down yet"}
	list := f.choose("other", "The other part", "", "choose …", append([]option{fresh}, linkPartOptions(s.kit, s.part)...))
	if len(same) == 0 || len(same) > fewParts {
		return list
	}
	quick := f.pick("other", "The other part", append(same, fresh))
	return app.Div().Class("block").Body(quick, app.Details().Class("group").Body(app.Summary().Text("A part of another kind"), list))
}

// newPart asks for as little as names a part at a counter.
func (s *linkEditScreen) newPart() app.UI {
	f := s.form
	return app.Div().Class("block rowform").Body(
		f.text("newName", "Its name", "it becomes a "+kindName(s.cat, s.part.Kind)+" like this one"),
		f.text("newNumber", "Its number", "as printed"),
		f.text("newBrand", "Whose number, the brand", ""),
	)
}

func warningList(list []string) app.UI {
	return app.Div().Class("block").Aria("live", "polite").Body(app.Range(list).Slice(func(i int) app.UI {
		return app.P().Class("note warn").Text(list[i])
	}))
}

// linkPartOptions lists parts of the same kind first.
func linkPartOptions(k fieldkit.Kit, part fieldkit.Part) []option {
	var list []option
	for _, same := range []bool{true, false} {
		for _, p := range k.Parts.All() {
			if p.ID != part.ID && (p.Kind == part.Kind) == same {
				list = append(list, option{p.ID, p.Name})
			}
		}
	}
	return list
}

// name is what the screen calls a part; the new one has no name until it is typed.
func (s *linkEditScreen) name(id string) string {
	switch id {
	case "":
		return "the other part"
	case newPart:
		return orWord(s.form.typed("newName"), "the new part")
	}
	return partNamer(s.kit)(id)
}

// chosen is the link as chosen so far.
func (s *linkEditScreen) chosen() fieldkit.Link {
	l, _ := s.kit.Links.Find(s.id)
	l.Grade, l.Evidence = fieldkit.Grade(s.form.get("grade")), fieldkit.Evidence(s.form.get("evidence"))
	l.On, _ = optionalDate(s.form.typed("on")) // a date half typed is none yet; saving reads it again
	l.For, l.With = s.part.ID, s.form.get("other")
	if s.form.get("direction") == thisTakesPlace {
		l.For, l.With = l.With, l.For
	}
	return l
}

func (s *linkEditScreen) warnings() []string {
	l := s.chosen()
	of := [6]string{l.ID, l.For, l.With, string(l.Grade), string(l.Evidence), l.On.String()}
	if !s.judged.known || s.judged.of != of || s.judged.kit != kept.revision {
		s.judged = judgement{of, kept.revision, linkWarnings(s.kit, s.cat, l), true}
	}
	return s.judged.list
}

// back leads to where the part is seen.
func (s *linkEditScreen) back() string {
	at := s.at
	if fitted := s.kit.FittedAt(s.part.ID); at == "" && len(fitted) > 0 {
		at = fitted[0].ID
	}
	switch {
	case at != "":
		return link("/rig/position", "id", at)
	case s.part.ID != "":
		return link("/counter/card", "part", s.part.ID)
	}
	return link("/rig")
}

// read makes a link of what was typed, and the part it needs if that is new; every
// wrong field is marked.
func (s *linkEditScreen) read() (l fieldkit.Link, added *fieldkit.Part, ok bool) {
	f := s.form
	ok = f.short()
	if f.get("other") == newPart {
		added = &fieldkit.Part{ID: f.recordID() + "-part", Kind: s.part.Kind, Name: f.typed("newName")}
		if added.Name == "" {
			ok = f.refuse("newName", badField("the new part has no name", "write what you would call it at a counter")) && ok
		}
		number, brand := f.typed("newNumber"), f.typed("newBrand")
		ok = f.refuse("newNumber", fieldkit.MixedScript(number)) && ok
		if number != "" {
			added.Numbers = []fieldkit.Number{{Value: number, Issuer: fieldkit.ReplacementNumber, From: brand}}
		} else if brand != "" {
			ok = f.refuse("newNumber", badField("there is a brand and no number", "write the number, or clear the brand")) && ok
		}
	}
	l = s.chosen()
	_, there := s.kit.Part(f.get("other"))
	switch {
	case f.get("other") != "" && added == nil && !there:
		ok = f.refuse("other", badField("the part chosen is not in this kit any more", "choose another")) && ok
	case f.get("other") == "":
		ok = f.refuse("other", badField("no part is chosen", "choose the part that goes with this one")) && ok
	case added != nil && l.With == newPart:
		l.With = added.ID
	case added != nil:
		l.For = added.ID
	}
	if l.Grade == "" {
		ok = f.refuse("grade", badField("it is not said how well it fits", "choose one")) && ok
	}
	if l.Evidence == "" {
		ok = f.refuse("evidence", badField("it is not said how you know", "choose one; hearsay is an answer too")) && ok
	}
	l.Changes = nil
	if l.Grade == fieldkit.WithChanges || l.Grade == fieldkit.OneWay {
		l.Changes = lines(f.get("changes"))
	}
	if l.Grade == fieldkit.WithChanges && len(l.Changes) == 0 {
		ok = f.refuse("changes", badField("it is not said what must be changed", "write it, or choose drop-in")) && ok
	}
	_, err := f.pastDate("on", today())
	ok = f.refuse("on", err) && ok
	l.By, l.Note = f.typed("by"), f.typed("note")
	return l, added, ok
}

func (s *linkEditScreen) save(ctx app.Context) {
	l, added, ok := s.read()
	if !ok {
		s.form.wrongAbove(ctx)
		return
	}
	if s.id == "" {
		l.ID = s.form.recordID()
	}
	other := s.name(otherEnd(s.chosen(), s.part.ID))
	s.form.keepWith(ctx, "Saved interchange: "+s.part.Name+" and "+other, l, func(e *journal.Edit) error {
		if added != nil {
			e.Put(*added)
		}
		return nil
	}, to(s.back()))
}

func (s *linkEditScreen) delete(ctx app.Context) {
	l := s.chosen()
	s.form.drop(ctx, "Deleted interchange: "+s.name(l.For)+" and "+s.name(l.With), l, to(s.back()))
}
