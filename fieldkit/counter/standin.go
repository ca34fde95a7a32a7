package counter

import (
	"fmt"
	"strings"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/interchange"
)

// StandInLine is a part to ask for if the store does not have the one wanted.
type StandInLine struct {
	Part    string // ID
	Grade   fieldkit.Grade
	Name    string
	Numbers []string // with their issuers
	Donor   string
	Changes []string
	Weakest fieldkit.Evidence // of the chain
	Chain   string            // how it is known, step by step if there are several
	SitsAt  []string          // where on the rigs it sits
	Doubt   string            // why not to rely on it, if there is a reason
	Stock   int               // pieces at home
}

// standIns lists the stand-ins that the kit knows as parts, best first.
func (l *ledger) standIns(p fieldkit.Part, graph *interchange.Graph) (list []StandInLine) {
	if graph == nil {
		return nil
	}
	for _, s := range graph.StandIns(p.ID) {
		q, ok := l.kit.Part(s.Part)
		if !ok {
			continue
		}
		line := StandInLine{
			Part: q.ID, Grade: s.Grade, Name: l.partName(q.ID), Numbers: spoken(q),
			Changes: s.Changes, Weakest: s.Weakest, Chain: l.chain(s.Chain), Stock: l.kit.Stock(q.ID),
		}
		if d, ok := l.donors[q.Donor]; ok && q.Donor != p.Donor {
			line.Donor = d.Title()
		}
		for _, at := range l.kit.FittedAt(q.ID) {
			line.SitsAt = append(line.SitsAt, strings.TrimPrefix(l.rigOf(at).Name+", "+l.placeTitle(at, nil), ", "))
		}
		line.Doubt = l.doubt(s)
		list = append(list, line)
	}
	return list
}

// chain tells how a stand-in is known; the parts between are named, since each is one
// more to ask for.
func (l *ledger) chain(steps []interchange.Step) string {
	var words []string
	for _, s := range steps {
		how := "both bear " + s.Standard
		if s.Standard == "" {
			how = proofWords(&fieldkit.Proof{How: s.Evidence, On: s.On, By: s.By})
		}
		if len(steps) > 1 {
			how = fmt.Sprintf("%s (%s; %s)", l.partName(s.To), s.Grade, how)
		}
		words = append(words, how)
	}
	text := strings.Join(words, " → ")
	if len(steps) > 1 {
		weakest := steps[0].Evidence
		for _, s := range steps {
			if s.Evidence.Strength() < weakest.Strength() {
				weakest = s.Evidence
			}
		}
		text += "; the weakest of it is " + string(weakest)
	}
	return text
}

func (l *ledger) doubt(s interchange.StandIn) string {
	if len(s.Contested) > 0 {
		b := s.Contested[0]
		return "the records contradict each other: " + l.partName(b.With) + " does not fit in place of " + l.partName(b.For) + " (" + string(b.Evidence) + ")"
	}
	if s.Weakest == fieldkit.Hearsay {
		return "somebody only said so: measure before you pay"
	}
	return ""
}

// refusing are the links that say of two parts that they do not fit.
var refusing = fieldkit.GroupedBy(func(k *fieldkit.Link, under func(part string)) {
	if k.Grade == fieldkit.DoesNotFit {
		under(k.For)
		under(k.With)
	}
})

// refusals lists the parts recorded not to fit, in the order of the kit.
func (l *ledger) refusals(p fieldkit.Part, graph *interchange.Graph) (list []Refusal) {
	seen := map[string]bool{p.ID: true}
	for _, k := range refusing.All(l.kit.Links, p.ID) {
		other := k.With
		if k.With == p.ID {
			other = k.For
		}
		if seen[other] {
			continue
		}
		seen[other] = true
		why := proofWords(&fieldkit.Proof{How: k.Evidence, On: k.On, By: k.By})
		if k.Note != "" {
			why = k.Note + " (" + why + ")"
		}
		part, _ := l.kit.Part(other)
		refused := Refusal{Part: other, Name: l.partName(other), Numbers: spoken(part), Why: why}
		if graph != nil {
			if chain, ok := graph.Despite(p.ID, other); ok {
				refused.Yet = "contradiction: yet " + string(chain.Grade) + " by " + l.chain(chain.Chain)
			}
		}
		list = append(list, refused)
	}
	return list
}
