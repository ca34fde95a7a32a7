package triage

import (
	"math"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

// Look is one talk about one rig, weighed.
type Look struct {
	book  Book
	cat   fieldkit.Catalog
	rig   fieldkit.Rig
	talk  Talk
	live  []live // causes that this rig can have, in the book's order
	own   []repair.Guide
	asked []asked
}

// live is a cause that this rig can have.
type live struct {
	cause  Cause
	guide  repair.Guide
	record         // of the place where its parts are likeliest to have failed
	prior  float64 // logarithm of how often it fails, and of the position suspected
	sign   float64 // logarithm of how often people begin with the symptom
	now    float64 // probability by all that was said
}

// asked is an answer that counts: the question is known and can be asked on this rig.
type asked struct {
	question Question
	option   int // -1 for "I don't know"
}

// aDay is the drive that priors are reckoned for. Only their ratios matter.
var aDay = fieldkit.Trip{Distance: 100 * fieldkit.Kilometre, Terrain: fieldkit.RoughTrack}

// Weights that the book does not hold. Starting guesses, not measured.
const (
	// slip is how many answers in one are given at random: people look at the wrong
	// wheel. It keeps one answer from ruling a cause out.
	slip = 0.06
	// What a suspected position leaves of causes in the same system, and of all others.
	nearby    = 0.4
	elsewhere = 0.1
	// leastRate stands for a cause of which nothing is known, failures a day.
	leastRate = 1e-5
)

// Open weighs a talk. guides hold the repairs that the book's causes lead to, and the
// crew's own, which are offered beside them. A rig that is not in the kit has no traits and no log: all is
// asked and starting guesses stand.
func Open(book Book, guides []repair.Guide, kit fieldkit.Kit, cat fieldkit.Catalog, talk Talk) *Look {
	l := &Look{book: book, cat: cat, talk: talk}
	l.rig, _ = kit.Rig(talk.Rig)
	position, suspected := kit.Position(talk.Position)
	if suspected {
		l.rig, _ = kit.RigOf(position)
	}
	for _, g := range guides {
		if g.Own {
			l.own = append(l.own, g)
		}
	}
	all := recordsOf(kit, cat, l.rig)
	for _, cause := range book.Causes {
		guide, ok := repair.Named(guides, cause.Repair)
		if !ok || !cause.can(l.rig) || guide.Suits.On(l.rig) == repair.Fails {
			continue
		}
		one := live{cause: cause, guide: guide, sign: l.signOf(cause)}
		one.weigh(all)
		if suspected {
			one.suspect(cat, all, position)
		}
		l.live = append(l.live, one)
	}
	for _, a := range talk.Answers {
		q, ok := l.Question(a.Question)
		option := slices.IndexFunc(q.Options, func(o Option) bool { return o.ID == a.Option })
		if ok && (option >= 0 || a.Option == "") && len(l.asked) < MostQuestions && !l.has(q.ID) {
			l.asked = append(l.asked, asked{q, option})
		}
	}
	l.settle()
	return l
}

// ownFor lists the crew's own repairs that mend what a cause is about.
func (l *Look) ownFor(c live) (own []repair.Guide) {
	kinds := slices.Concat(c.cause.Kinds, c.guide.PartKinds)
	if c.place.ID != "" {
		kinds = []string{c.place.Kind}
	}
	for _, g := range l.own {
		if slices.ContainsFunc(g.PartKinds, func(kind string) bool { return slices.Contains(kinds, kind) }) {
			own = append(own, g)
		}
	}
	return own
}

// suspect lowers the prior of what has nothing to do with a position, and puts the
// others there.
func (c *live) suspect(cat fieldkit.Catalog, all records, position fieldkit.Position) {
	kind, _ := cat.PartKind(position.Kind)
	switch {
	case slices.Contains(c.cause.Kinds, position.Kind) || slices.Contains(c.guide.PartKinds, position.Kind):
		c.record = all.at(position)
	case c.guide.System == kind.System:
		c.prior += math.Log(nearby)
	default:
		c.prior += math.Log(elsewhere)
	}
}

// signOf is how often people begin with the symptom where this is the cause. Without
// a symptom it weighs nothing.
func (l *Look) signOf(c Cause) float64 {
	if _, ok := l.book.Symptom(l.talk.Sign); !ok {
		return 0
	}
	sum := 0
	for _, share := range c.Signs {
		sum += share
	}
	return math.Log((1-slip)*float64(c.Signs[l.talk.Sign])/float64(sum) + slip/float64(len(l.book.Symptoms)))
}

// settle works out the probabilities. Answers are taken in the order of the
// questions' IDs, so that the order they were given in does not show even in the last
// digit.
func (l *Look) settle() {
	sorted := slices.Clone(l.asked)
	slices.SortFunc(sorted, func(a, b asked) int { return strings.Compare(a.question.ID, b.question.ID) })
	most := math.Inf(-1)
	for i := range l.live {
		c := &l.live[i]
		c.now = c.prior + c.sign
		for _, a := range sorted {
			if a.option >= 0 {
				c.now += math.Log(chance(c.cause, c.guide, a.question)[a.option])
			}
		}
		most = math.Max(most, c.now)
	}
	sum := 0.0
	for i := range l.live {
		l.live[i].now = math.Exp(l.live[i].now - most)
		sum += l.live[i].now
	}
	for i := range l.live {
		l.live[i].now /= sum
	}
}

// chance is how often each option, in their order, is the answer where a cause is the
// right one.
func chance(c Cause, g repair.Guide, q Question) []float64 {
	if q.trait != "" {
		return chanceOfTrait(c, g, q)
	}
	p := make([]float64, len(q.Options))
	share := c.Answers[q.ID]
	left, usual := 100, 0
	for i, o := range q.Options {
		n := share[o.ID]
		p[i] = float64(n)
		if left -= n; n == 0 {
			usual += o.Usual
		}
	}
	for i, o := range q.Options {
		if p[i] == 0 {
			p[i] = float64(left) * float64(o.Usual) / float64(usual)
		}
		p[i] = (1-slip)*p[i]/100 + slip/float64(len(q.Options))
	}
	return p
}

func (l *Look) has(question string) bool {
	return slices.ContainsFunc(l.asked, func(a asked) bool { return a.question.ID == question })
}
