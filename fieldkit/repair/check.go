package repair

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
)

// checker gathers the rules that one guide breaks.
type checker struct {
	guide    Guide
	base     string // pointer of the guide in its file
	problems []kitfile.Problem
}

func (c *checker) add(pointer, what, do string) {
	c.problems = append(c.problems, kitfile.Problem{Kind: fieldkit.BadInput, Pointer: c.base + pointer, What: what, Do: do})
}

// need reports a text that is missing.
func (c *checker) need(pointer, text, what string) {
	if strings.TrimSpace(text) == "" {
		c.add(pointer, what+" is missing", "write it")
	}
}

func (c *checker) needAll(pointer string, texts []string, what string) {
	if len(texts) == 0 {
		c.add(pointer, what+" are missing", "write at least one")
	}
	for i, t := range texts {
		c.need(at(pointer, i), t, "the text")
	}
}

func at(pointer string, i int) string { return pointer + "/" + strconv.Itoa(i) }

// check goes through every rule of a guide.
func check(g Guide, base string) []kitfile.Problem {
	c := &checker{guide: g, base: base}
	c.head()
	c.rulings("/roll", g.Roll)
	c.rulings("/drive", g.Drive)
	c.rulings("/afterFieldFix", g.AfterFieldFix)
	c.needs()
	for i := range g.Steps {
		c.step(at("/steps", i), i)
	}
	c.reach()
	return c.problems
}

func (c *checker) head() {
	g := c.guide
	c.id("/id", g.ID)
	c.need("/title", g.Title, "the title")
	c.need("/system", g.System, "the system")
	c.need("/summary", g.Summary, "what it looks like")
	c.need("/failed", g.Failed, "what the log says broke")
	c.need("/fieldFix", g.FieldFix, "the field fix")
	c.need("/properFix", g.ProperFix, "the proper fix")
	c.needAll("/symptoms", g.Symptoms, "symptoms")
	c.needAll("/partKinds", g.PartKinds, "part kinds")
	c.needAll("/stopSigns", g.StopSigns, "stop signs")
	c.needAll("/afterwards/after10km", g.Afterwards.After10km, "checks after 10 km")
	c.needAll("/afterwards/atHome", g.Afterwards.AtHome, "checks at home")
	c.condition("/suits", g.Suits)
	if g.Hands < 1 {
		c.add("/hands", fmt.Sprintf("%d hands cannot do it", g.Hands), "write 1 or more")
	}
	if g.Time < 1 {
		c.add("/time", "the time is missing", "write 1 h 30 min")
	}
	if len(g.Steps) == 0 {
		c.add("/steps", "there are no steps", "write at least one")
	}
}

func (c *checker) id(pointer, id string) {
	switch {
	case id == "" || len(id) > fieldkit.MaxID || strings.Trim(id, "abcdefghijklmnopqrstuvwxyz0123456789-") != "":
		c.add(pointer, fmt.Sprintf("%q cannot be an ID", id), "use small letters, figures and dashes")
	case id == End:
		c.add(pointer, `no step can be called "end"`, "choose another ID")
	}
}

func (c *checker) condition(pointer string, when Condition) {
	for _, trait := range when.Traits() {
		if len(when[trait]) == 0 {
			c.add(pointer+"/"+trait, "no option of the trait is named", "name those that will do")
		}
	}
}

func (c *checker) rulings(pointer string, list []Ruling) {
	for i, r := range list {
		here := at(pointer, i)
		c.condition(here+"/when", r.When)
		c.need(here+"/why", r.Why, "the reason")
		switch {
		case r.Verdict.severity() < 0:
			c.add(here+"/verdict", fmt.Sprintf("%q is not a verdict", r.Verdict), `write "yes", "with limits" or "no"`)
		case r.Verdict == MayWithin && r.PerHour == 0 && r.Within == 0 && r.Note == "":
			c.add(here, "the limits are missing", "write perHour, within or a note")
		}
		if len(r.When) == 0 && i < len(list)-1 {
			c.add(here, "it holds on every rig, so those after it never apply", "put it last")
		}
	}
	if n := len(list); n == 0 || len(list[n-1].When) > 0 {
		c.add(pointer, "there is no verdict for the rigs that are left", "end with one that has no condition")
	}
}

func (c *checker) needs() {
	g := c.guide
	var tools, consumables, parts []string
	for i, n := range g.Tools {
		c.need(at("/tools", i)+"/why", n.Why, "what the tool is for")
		c.count(at("/tools", i)+"/count", n.Count)
		tools = append(tools, n.Kind)
	}
	for i, n := range g.Consumables {
		if n.Amount.Base <= 0 {
			c.add(at("/consumables", i)+"/amount", fmt.Sprintf("%q is not an amount", n.Amount), "write 500 mL, or a count")
		}
		consumables = append(consumables, n.Kind)
	}
	for i, n := range g.Parts {
		c.count(at("/parts", i)+"/count", n.Count)
		parts = append(parts, n.Kind)
	}
	c.listed("/tools", "tool", tools, func(s Step) []string { return s.Tools })
	c.listed("/consumables", "consumable", consumables, func(s Step) []string { return s.Consumables })
	c.listed("/parts", "part", parts, func(s Step) []string { return s.Parts })
}

func (c *checker) count(pointer string, n int) {
	if n < 1 {
		c.add(pointer, fmt.Sprintf("%d is not a count", n), "write 1 or more")
	}
}

// listed holds what the steps use against what the guide asks for: each must name
// the other.
func (c *checker) listed(pointer, one string, kinds []string, of func(Step) []string) {
	used := map[string]bool{}
	for i, s := range c.guide.Steps {
		for j, kind := range of(s) {
			used[kind] = true
			if !slices.Contains(kinds, kind) {
				c.add(at(at("/steps", i)+pointer, j), fmt.Sprintf("the %s %q is not listed by the repair", one, kind), "list it under "+pointer[1:])
			}
		}
	}
	for i, kind := range kinds {
		switch {
		case slices.Contains(kinds[:i], kind):
			c.add(at(pointer, i), fmt.Sprintf("the %s %q is listed twice", one, kind), "keep one of the two")
		case !used[kind]:
			c.add(at(pointer, i), fmt.Sprintf("no step uses the %s %q", one, kind), "name it in the step that does, or take it out")
		}
	}
}

func (c *checker) step(pointer string, i int) {
	s := c.guide.Steps[i]
	c.id(pointer+"/id", s.ID)
	if c.guide.index(s.ID) < i {
		c.add(pointer+"/id", fmt.Sprintf("the step %q is there twice", s.ID), "give each its own ID")
	}
	c.need(pointer+"/text", s.Text, "the text")
	if n := utf8.RuneCountInString(s.Text); n > MaxStepText {
		c.add(pointer+"/text", fmt.Sprintf("the text is %d characters long, the most is %d", n, MaxStepText), "make two steps of it")
	}
	if !slices.Contains(Stages, s.Stage) {
		c.add(pointer+"/stage", fmt.Sprintf("%q is not a stage", s.Stage), `write one such as "make safe", "field fix" or "check"`)
	}
	c.condition(pointer+"/only", s.Only)
	c.hazards(pointer, s)
	for j, t := range s.Torques {
		c.torque(at(pointer+"/torques", j), t)
	}
	for j, f := range s.Figures {
		c.figure(at(pointer+"/figures", j), f)
	}
	if s.Asks() {
		c.options(pointer, i)
	}
	switch {
	case s.Next != "" && s.Asks():
		c.add(pointer+"/next", "a question goes on where its answers lead", "take it out")
	case s.Next != "":
		c.next(pointer+"/next", i, s.Next)
	}
}

func (c *checker) hazards(pointer string, s Step) {
	covered := map[Hazard]bool{}
	for j, k := range s.Cautions {
		here := at(pointer+"/cautions", j)
		covered[k.Kind] = true
		if !slices.Contains(s.Hazards, k.Kind) {
			c.add(here+"/kind", fmt.Sprintf("the step is not marked %q", k.Kind), "add it to the hazards")
		}
		c.need(here+"/hazard", k.Hazard, "the hazard")
		c.need(here+"/harm", k.Harm, "the harm it does")
		c.need(here+"/avoid", k.Avoid, "the way to avoid it")
	}
	for j, h := range s.Hazards {
		switch here := at(pointer+"/hazards", j); {
		case !slices.Contains(AllHazards, h):
			c.add(here, fmt.Sprintf("%q is not a kind of hazard", h), `write one such as "lifting" or "brakes"`)
		case !covered[h]:
			c.add(here, fmt.Sprintf("the hazard %q has no caution in front of the step", h), "write hazard, harm and how to avoid it")
		}
	}
}

func (c *checker) torque(pointer string, t Torque) {
	c.need(pointer+"/fastener", t.Fastener, "the fastener")
	if t.Low <= 0 || t.High < t.Low {
		c.add(pointer, fmt.Sprintf("%q to %q is not a range", t.Low, t.High), "write low and high, low first")
	}
	c.source(pointer, t.Source)
	if t.Source == FromFastener && (t.Thread == "" || t.Grade == "") {
		c.add(pointer, "a computed torque needs its thread and grade", "write both")
	}
}

func (c *checker) figure(pointer string, f Figure) {
	c.need(pointer+"/what", f.What, "what is measured")
	c.source(pointer, f.Source)
	switch low, high := !f.Low.IsZero(), !f.High.IsZero(); {
	case !low && !high:
		c.add(pointer, "the limit is missing", "write low, high or both")
	case low && high && (f.Low.Dim != f.High.Dim || f.High.Base < f.Low.Base || f.Low.Dim == fieldkit.DimText):
		c.add(pointer, fmt.Sprintf("%q to %q is not a range", f.Low, f.High), "write low and high, low first")
	}
}

func (c *checker) source(pointer string, s Source) {
	if s != FromFastener && s != CommonPractice {
		c.add(pointer+"/source", fmt.Sprintf("%q is not a source", s), fmt.Sprintf("write %q or %q", FromFastener, CommonPractice))
	}
}
