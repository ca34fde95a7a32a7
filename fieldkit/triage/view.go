package triage

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/likelihood"
	"trailfieldkit/fieldkit/repair"
)

// View is what there is to show.
type View struct {
	Question Question // the next to ask
	Done     bool     // there is none
	Number   int      // of the question, from 1
	Said     []Said   // what was answered, in order
	Ranked   []Found  // the likeliest first
}

// Said is a question that was answered.
type Said struct {
	Question string
	Answer   string // empty for "I don't know"
}

// Found is a cause and where it stands.
type Found struct {
	Cause       string // ID
	Name        string
	Guide       repair.Guide
	Own         []repair.Guide    // what the crew wrote itself for the same part
	Position    fieldkit.Position // where to look first, if the rig lists such a place
	Probability float64           // given all that was said, among the causes that the book knows
	For         []string          // why it stands so high
	Against     []string          // what speaks against it
	Guessed     bool              // how often its parts fail is mostly a starting guess
}

// How many causes are listed, and how unlikely the last may be.
const (
	leastListed = 3
	mostListed  = 8
	tooUnlikely = 0.01
)

// View says what to ask next, and how the causes stand.
func (l *Look) View() View {
	v := View{Number: len(l.asked) + 1}
	for _, a := range l.asked {
		said := Said{Question: a.question.Ask}
		if a.option >= 0 {
			said.Answer = a.question.Options[a.option].Answer
		}
		v.Said = append(v.Said, said)
	}
	q, more := l.next()
	v.Question, v.Done = q, !more
	sorted := slices.Clone(l.live)
	slices.SortStableFunc(sorted, func(a, b live) int { return cmp.Compare(b.now, a.now) })
	for i, c := range sorted {
		if i >= mostListed || i >= leastListed && c.now < tooUnlikely {
			break
		}
		v.Ranked = append(v.Ranked, l.found(c))
	}
	return v
}

// An answer is worth naming if it is given so much more or less often than over all
// causes.
const (
	speaksFor     = 1.5
	speaksAgainst = 0.5
)

func (l *Look) found(c live) Found {
	f := Found{Cause: c.cause.ID, Name: c.cause.Name, Guide: c.guide, Own: l.ownFor(c), Probability: c.now, Guessed: c.known.Guessed()}
	if c.place.ID != "" {
		f.Position = c.place
	}
	if s, ok := l.book.Symptom(l.talk.Sign); ok && c.cause.Signs[s.ID] > 0 {
		f.For = append(f.For, "you began with: "+s.Says)
	}
	if c.place.ID != "" && c.place.ID == l.talk.Position {
		f.For = append(f.For, "it sits where you look")
	}
	for _, a := range l.asked {
		if a.option < 0 {
			continue
		}
		answer := a.question.Options[a.option].Answer
		mean := 0.0
		for _, other := range l.live {
			mean += chance(other.cause, other.guide, a.question)[a.option] / float64(len(l.live))
		}
		switch ratio := chance(c.cause, c.guide, a.question)[a.option] / mean; {
		case ratio >= speaksFor:
			f.For = append(f.For, "you said: "+answer)
		case ratio <= speaksAgainst:
			f.Against = append(f.Against, "you said: "+answer)
		}
	}
	f.For = append(f.For, c.lines()...)
	return f
}

// lines say what age, readings and log say of its parts.
func (r record) lines() (lines []string) {
	if n := r.known.Failures + r.lately; n > 0 {
		times := fmt.Sprintf("%d times", n)
		if n <= 2 {
			times = []string{"once", "twice"}[n-1]
		}
		lines = append(lines, "failed "+times+" in your log")
	}
	if r.known.Due {
		lines = append(lines, "its readings say it is at its limit")
	}
	if r.known.Source == likelihood.ByAge || r.known.Source == likelihood.ByWear {
		words, _, _ := strings.Cut(r.known.Evidence, ";")
		lines = append(lines, words)
	}
	return lines
}
