package triage

import "math"

// When to ask no more. Starting guesses.
const (
	surely    = 0.97 // the first cause is all but certain,
	leastSaid = 2    // and so many things were said: a symptom, an answer
	leastGain = 0.02 // bits: no question left narrows much
)

// How many of a hundred cannot answer: most look, fewer have a jack at hand.
const (
	unsure     = 0.15
	unsureHard = 0.40
)

// next is the question that narrows most: whose answer lets expect the largest drop
// in entropy, for those who can give one. Of two alike it is the earlier in the book.
func (l *Look) next() (best Question, ok bool) {
	if len(l.asked) >= MostQuestions || len(l.live) < 2 {
		return best, false
	}
	said := len(l.asked)
	if l.talk.Sign != "" {
		said++
	}
	for _, c := range l.live {
		if c.now >= surely && said >= leastSaid {
			return best, false
		}
	}
	most := leastGain
	for _, q := range l.questions() {
		if l.has(q.ID) {
			continue
		}
		can := 1 - unsure
		if q.Hard {
			can = 1 - unsureHard
		}
		if gain := can * l.gain(q); gain > most {
			most, best, ok = gain, q, true
		}
	}
	return best, ok
}

// gain is the expected drop in entropy by an answer, in bits: the mutual information
// of cause and answer. Source: Cover and Thomas, Elements of Information Theory, 2.4.
func (l *Look) gain(q Question) (bits float64) {
	total := make([]float64, len(q.Options))
	each := make([][]float64, len(l.live))
	for i, c := range l.live {
		each[i] = chance(c.cause, c.guide, q)
		for j, p := range each[i] {
			total[j] += c.now * p
		}
	}
	for i, c := range l.live {
		for j, p := range each[i] {
			if c.now > 0 {
				bits += c.now * p * math.Log2(p/total[j])
			}
		}
	}
	return bits
}
