package triage

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
	"trailfieldkit/fieldkit/repair"
)

// Texts are read at one glance with dirty hands.
const maxText = 240 // bytes

// mustStop are the signs that come before any question.
var mustStop = []string{"hurt", "fuel", "unsupported", "brakes", "steering", "coolant"}

type checker struct{ problems []kitfile.Problem }

func (c *checker) note(pointer, what, do string) {
	c.problems = append(c.problems, kitfile.Problem{Pointer: pointer, What: what, Do: do})
}

func check(b Book) []kitfile.Problem {
	c := &checker{}
	stops := ids(c, "/stops", b.Stops, func(s Stop) string { return s.ID })
	for _, id := range mustStop {
		if !stops[id] {
			c.note("/stops", fmt.Sprintf("the stop sign %q is missing", id), "add it")
		}
	}
	for i, s := range b.Stops {
		at := fmt.Sprintf("/stops/%d", i)
		c.text(s.Sign, at+"/sign")
		if len(s.Now) == 0 {
			c.note(at+"/now", "it does not say what to do", "write it")
		}
		for j, line := range s.Now {
			c.text(line, fmt.Sprintf("%s/now/%d", at, j))
		}
	}
	symptoms := ids(c, "/symptoms", b.Symptoms, func(s Symptom) string { return s.ID })
	for i, s := range b.Symptoms {
		at := fmt.Sprintf("/symptoms/%d", i)
		c.text(s.Says, at+"/says")
		if !slices.Contains(Senses, s.Sense) {
			c.note(at+"/sense", fmt.Sprintf("%q is not a sense", s.Sense), fmt.Sprintf("write one of %q", Senses))
		}
		if !slices.ContainsFunc(b.Causes, func(c Cause) bool { return c.Signs[s.ID] > 0 }) {
			c.note(at, fmt.Sprintf("nothing begins with %q", s.ID), "name it under the signs of a cause")
		}
	}
	ids(c, "/questions", b.Questions, func(q Question) string { return q.ID })
	for i, q := range b.Questions {
		c.question(q, fmt.Sprintf("/questions/%d", i))
	}
	ids(c, "/causes", b.Causes, func(k Cause) string { return k.ID })
	for i, k := range b.Causes {
		c.cause(b, k, symptoms, fmt.Sprintf("/causes/%d", i))
	}
	return c.problems
}

// ids checks that each of a list has an ID of its own.
func ids[T any](c *checker, list string, all []T, id func(T) string) map[string]bool {
	seen := map[string]bool{}
	for i, one := range all {
		at := fmt.Sprintf("%s/%d/id", list, i)
		switch s := id(one); {
		case s == "" || len(s) > fieldkit.MaxID || strings.Trim(s, "abcdefghijklmnopqrstuvwxyz0123456789-") != "":
			c.note(at, fmt.Sprintf("%q cannot be an ID", s), "use small letters, figures and dashes")
		case seen[s]:
			c.note(at, fmt.Sprintf("%q is there twice", s), "give each its own ID")
		}
		seen[id(one)] = true
	}
	return seen
}

func (c *checker) text(s, pointer string) {
	switch {
	case strings.TrimSpace(s) == "":
		c.note(pointer, "nothing is written", "write it")
	case len(s) > maxText:
		c.note(pointer, fmt.Sprintf("a text of %d bytes is longer than the most, %d", len(s), maxText), "shorten it")
	}
}

func (c *checker) question(q Question, at string) {
	c.text(q.Ask, at+"/ask")
	c.text(q.How, at+"/how")
	if strings.HasPrefix(q.ID, traitPrefix) {
		c.note(at+"/id", "that beginning belongs to questions made from traits", "choose another ID")
	}
	if q.Caution != "" {
		c.text(q.Caution, at+"/caution")
	}
	if len(q.Options) < 2 {
		c.note(at+"/options", "a question without a choice narrows nothing", "write two options or more")
	}
	ids(c, at+"/options", q.Options, func(o Option) string { return o.ID })
	sum := 0
	for i, o := range q.Options {
		here := fmt.Sprintf("%s/options/%d", at, i)
		c.text(o.Answer, here+"/answer")
		if o.Usual < 1 {
			c.note(here+"/usual", fmt.Sprintf("%d of a hundred is never", o.Usual), "write 1 or more")
		}
		sum += o.Usual
	}
	if sum != 100 {
		c.note(at+"/options", fmt.Sprintf("the usual shares make %d, not 100", sum), "correct them")
	}
}

func (c *checker) cause(b Book, k Cause, symptoms map[string]bool, at string) {
	c.text(k.Name, at+"/name")
	if len(k.Kinds) > 0 && (k.Share < 1 || k.Share > 100) {
		c.note(at+"/share", fmt.Sprintf("%d of a hundred failures cannot be", k.Share), "write 1 to 100")
	}
	if k.Besides < 0 || len(k.Kinds) == 0 && k.Besides == 0 {
		c.note(at, "nothing says how often it comes", "name part kinds, or write besides")
	}
	c.shares(k.Signs, symptoms, "symptom", at+"/signs")
	if len(k.Signs) == 0 {
		c.note(at+"/signs", "no symptom begins it", "name one")
	}
	for _, id := range slices.Sorted(maps.Keys(k.Answers)) {
		q, ok := named(b.Questions, func(q Question) bool { return q.ID == id })
		if !ok {
			c.note(at+"/answers/"+id, fmt.Sprintf("there is no question %q", id), "add it or correct the ID")
			continue
		}
		options := map[string]bool{}
		for _, o := range q.Options {
			options[o.ID] = true
		}
		c.shares(k.Answers[id], options, "option", at+"/answers/"+id)
	}
}

// shares checks that a table names what exists, and not more than a hundred.
func (c *checker) shares(table map[string]int, known map[string]bool, noun, at string) {
	sum := 0
	for _, id := range slices.Sorted(maps.Keys(table)) {
		if !known[id] {
			c.note(at+"/"+id, fmt.Sprintf("there is no %s %q", noun, id), "add it or correct the ID")
		}
		if table[id] < 1 {
			c.note(at+"/"+id, fmt.Sprintf("%d of a hundred is never", table[id]), "write 1 or more, or take it out")
		}
		sum += table[id]
	}
	if sum > 100 {
		c.note(at, fmt.Sprintf("the shares make %d, more than 100", sum), "correct them")
	}
}

// CheckAgainst says which repairs, part kinds, traits and options that a book names
// are not there, a sentence each.
func CheckAgainst(b Book, guides []repair.Guide, cat fieldkit.Catalog) (missing []string) {
	note := func(format string, args ...any) { missing = append(missing, fmt.Sprintf(format, args...)) }
	repairs := func(of string, list ...string) {
		for _, id := range list {
			if _, ok := repair.Named(guides, id); !ok {
				note("%s: there is no repair %q", of, id)
			}
		}
	}
	traits := func(of string, when repair.Condition) {
		for _, id := range when.Traits() {
			t, ok := cat.Trait(id)
			if !ok {
				note("%s: there is no trait %q", of, id)
			}
			for _, option := range when[id] {
				if ok && !slices.Contains(t.Options, option) {
					note("%s: the trait %q has no option %q", of, id, option)
				}
			}
		}
	}
	for _, s := range b.Stops {
		repairs(s.ID, s.Repairs...)
	}
	for _, q := range b.Questions {
		traits(q.ID, q.Only)
	}
	for _, k := range b.Causes {
		repairs(k.ID, k.Repair)
		traits(k.ID, k.Suits)
		traits(k.ID, k.Never)
		for _, kind := range k.Kinds {
			if _, ok := cat.PartKind(kind); !ok {
				note("%s: there is no part kind %q", k.ID, kind)
			}
		}
	}
	return missing
}
