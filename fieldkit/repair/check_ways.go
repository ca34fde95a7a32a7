package repair

import "fmt"

// options checks the answers of a question: at least two, each its own, and
// exactly one for who cannot tell, which no trait may take.
func (c *checker) options(pointer string, i int) {
	s := c.guide.Steps[i]
	if len(s.Options) < 2 {
		c.add(pointer+"/options", "a question needs two answers or more", "write them, or make it a plain step")
	}
	unsure, seen := 0, map[string]bool{}
	for j, o := range s.Options {
		here := at(pointer+"/options", j)
		c.need(here+"/answer", o.Answer, "the answer")
		c.condition(here+"/when", o.When)
		if seen[o.Answer] {
			c.add(here+"/answer", fmt.Sprintf("the answer %q is there twice", o.Answer), "word them apart")
		}
		seen[o.Answer] = true
		if o.Unsure {
			unsure++
			if len(o.When) > 0 {
				c.add(here+"/when", "no trait can say that a person does not know", "take the condition out")
			}
			if o.Sound {
				c.add(here+"/sound", "who cannot tell has not found it sound", "take the mark out")
			}
		}
		if o.Next != "" {
			c.next(here+"/next", i, o.Next)
		}
	}
	if unsure != 1 {
		c.add(pointer+"/options", fmt.Sprintf("%d answers are for who cannot tell", unsure), "mark exactly one as unsure, and lead it somewhere safe")
	}
}

// next checks that a step leads to one that exists and stands later, so that
// every way ends.
func (c *checker) next(pointer string, from int, to string) {
	if to == End {
		return
	}
	switch i := c.guide.index(to); {
	case i < 0:
		c.add(pointer, fmt.Sprintf("there is no step %q", to), `name a step of this repair, or "end"`)
	case i <= from:
		c.add(pointer, fmt.Sprintf("it leads back to %q, and might never end", to), "lead it to a later step; going back is a button")
	}
}

// reach reports the steps that no way leads to.
func (c *checker) reach() {
	g := c.guide
	reached := make([]bool, len(g.Steps))
	visit := func(id string) {
		if i := g.index(id); i >= 0 {
			reached[i] = true
		}
	}
	visit(g.first())
	for i, s := range g.Steps {
		if !reached[i] {
			if g.index(s.ID) == i {
				c.add(at("/steps", i), fmt.Sprintf("no way leads to the step %q", s.ID), "lead an answer or a step to it, or take it out")
			}
			continue
		}
		for _, o := range s.Options {
			visit(g.afterOption(s.ID, o))
		}
		if !s.Asks() || len(s.Only) > 0 {
			visit(g.following(s.ID))
		}
	}
}
