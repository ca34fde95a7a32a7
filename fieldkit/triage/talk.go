package triage

import "strings"

// Talk is what was said so far: all that the ranking follows from besides the kit.
type Talk struct {
	Rig      string // ID
	Position string // ID of the position one suspects, if any
	Sign     string // ID of the symptom, if any
	Answers  []Answer
}

// Answer is an answer to a question; an empty option is "I don't know".
type Answer struct{ Question, Option string }

// How answers stand in an address: "where.front-wheel~when.", with nothing after the
// point for "I don't know". Neither sign is in an ID or must be escaped.
const (
	pairEnd = "~"
	pairMid = "."
)

// WriteAnswers writes answers for an address.
func WriteAnswers(list []Answer) string {
	words := make([]string, len(list))
	for i, a := range list {
		words[i] = a.Question + pairMid + a.Option
	}
	return strings.Join(words, pairEnd)
}

// ReadAnswers reads what WriteAnswers wrote. An address may be from another version
// or mistyped: what is no pair, what is said twice and what is beyond MostQuestions
// is left out. Whether the questions exist, View finds out.
func ReadAnswers(text string) (list []Answer) {
	seen := map[string]bool{}
	for word := range strings.SplitSeq(text, pairEnd) {
		question, option, ok := strings.Cut(word, pairMid)
		if !ok || question == "" || seen[question] || strings.Contains(option, pairMid) {
			continue
		}
		if len(list) == MostQuestions {
			break
		}
		seen[question] = true
		list = append(list, Answer{question, option})
	}
	return list
}
