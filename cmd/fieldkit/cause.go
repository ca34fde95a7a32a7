package main

import (
	"context"
	"fmt"
	"io"
	"strings"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
	"trailfieldkit/fieldkit/triage"
)

const causeHelp = `
fieldkit cause [-kit FILE] [-json] [-rig RIG | -position ID] [SYMPTOM [QUESTION=ANSWER …]]

Finds the cause of a symptom: prints the question that narrows most, with its
answers, and the causes as they stand, the likeliest first, each with its repair and
why it stands there. Answer by calling again with QUESTION=ANSWER added; nothing after
the = is "I don't know". At most six questions are asked.

Without a symptom it lists the stop signs, with what to do at once, and the symptoms.
RIG is the ID of a rig, the first of the kit if left out; with -position the symptom
may be none.

` + kitOptionsHelp + `
The status is 1 when the kit has no such rig or position, and 2 for a symptom,
question or answer that is not known.

JSON fields: question {id, ask, how, caution, options [{id, answer}]}, null when
enough is known; causes [{id, name, repair, own, position, probability, for [],
against []}]; own lists the repairs the crew wrote itself for the same part.

Examples:
  fieldkit cause
  fieldkit cause -rig hobnail howl
  fieldkit cause -rig hobnail howl where=front-wheel swing=yes rock=
`

// asking, asksOneOf and foundCause are what cause prints as JSON.
type asking struct {
	ID      string      `json:"id"`
	Ask     string      `json:"ask"`
	How     string      `json:"how"`
	Caution string      `json:"caution"`
	Options []asksOneOf `json:"options"`
}

type asksOneOf struct {
	ID     string `json:"id"`
	Answer string `json:"answer"`
}

type foundCause struct {
	ID          string   `json:"id"`
	Name        string   `json:"name"`
	Repair      string   `json:"repair"`
	Own         []string `json:"own"`
	Position    string   `json:"position"`
	Probability float64  `json:"probability"`
	For         []string `json:"for"`
	Against     []string `json:"against"`
}

func causeCommand(_ context.Context, args []string, stdout, stderr io.Writer) int {
	opts := newKitOptions("cause")
	rig, position := opts.String("rig", "", ""), opts.String("position", "", "")
	words, ok := opts.read(args, stderr)
	if !ok {
		return askedWrong
	}
	kit, err := opts.load()
	if err != nil {
		return opts.complainKit(stderr, err)
	}
	book := data.Triage()
	if len(words) == 0 {
		printBook(stdout, book)
		return done
	}
	guides := repair.WithOwn(data.Guides(), kit)
	talk := triage.Talk{Rig: *rig, Position: *position, Sign: words[0]}
	if status := opts.whose(kit, &talk, stderr); status != done {
		return status
	}
	if _, ok := book.Symptom(talk.Sign); !ok && !(talk.Sign == "none" && talk.Position != "") {
		return opts.wrong(stderr, "%q is no symptom; fieldkit cause lists them", talk.Sign)
	}
	for _, word := range words[1:] {
		question, option, ok := strings.Cut(word, "=")
		q, known := triage.Open(book, guides, kit, data.Catalog(), talk).Question(question)
		_, given := q.Option(option)
		switch {
		case !ok:
			return opts.wrong(stderr, "%q is no answer; write QUESTION=ANSWER", word)
		case !known:
			return opts.wrong(stderr, "%q is no question on this rig", question)
		case option != "" && !given:
			return opts.wrong(stderr, "%q is no answer to %q", option, question)
		}
		talk.Answers = append(talk.Answers, triage.Answer{Question: question, Option: option})
	}
	v := triage.Open(book, guides, kit, data.Catalog(), talk).View()
	if *opts.json {
		printJSON(stdout, causesJSON(v))
		return done
	}
	printCauses(stdout, v)
	return done
}

// whose settles the rig that the talk is about.
func (o kitOptions) whose(kit fieldkit.Kit, talk *triage.Talk, stderr io.Writer) int {
	if talk.Position != "" {
		if _, ok := kit.Position(talk.Position); !ok {
			fmt.Fprintf(stderr, "fieldkit cause: the kit has no position %q\n", talk.Position)
			return notDone
		}
		return done
	}
	if talk.Rig == "" && len(kit.Rigs) > 0 {
		talk.Rig = kit.Rigs[0].ID
	}
	if _, ok := kit.Rig(talk.Rig); !ok {
		fmt.Fprintf(stderr, "fieldkit cause: the kit has no rig %q\n", talk.Rig)
		return notDone
	}
	return done
}

func printBook(w io.Writer, book triage.Book) {
	fmt.Fprintln(w, "Stop first:")
	for _, s := range book.Stops {
		fmt.Fprintf(w, "  %s\n", s.Sign)
		for _, line := range s.Now {
			fmt.Fprintf(w, "    %s\n", line)
		}
	}
	fmt.Fprintln(w, "Symptoms:")
	for _, s := range book.Symptoms {
		fmt.Fprintf(w, "  %-13s %s\n", s.ID, s.Says)
	}
}

func printCauses(w io.Writer, v triage.View) {
	if !v.Done {
		fmt.Fprintf(w, "Question %d of at most %d, %s: %s\n", v.Number, triage.MostQuestions, v.Question.ID, v.Question.Ask)
		if v.Question.Caution != "" {
			fmt.Fprintf(w, "  Take care: %s\n", v.Question.Caution)
		}
		fmt.Fprintf(w, "  %s\n", v.Question.How)
		for _, o := range v.Question.Options {
			fmt.Fprintf(w, "    %s=%s  %s\n", v.Question.ID, o.ID, o.Answer)
		}
		fmt.Fprintf(w, "    %s=  I don't know\n", v.Question.ID)
	}
	fmt.Fprintln(w, "Causes, the likeliest first:")
	for _, f := range v.Ranked {
		fmt.Fprintf(w, "  %5.1f %%  %s; repair %s", 100*f.Probability, f.Name, f.Guide.ID)
		if f.Position.ID != "" {
			fmt.Fprintf(w, " at %s", f.Position.ID)
		}
		fmt.Fprintln(w)
		for _, own := range f.Own {
			fmt.Fprintf(w, "           your own repair: %s (%s)\n", own.Title, own.ID)
		}
		for _, line := range f.For {
			fmt.Fprintf(w, "           %s\n", line)
		}
		for _, line := range f.Against {
			fmt.Fprintf(w, "           against it, %s\n", line)
		}
	}
}

func causesJSON(v triage.View) any {
	answer := struct {
		Question *asking      `json:"question"`
		Causes   []foundCause `json:"causes"`
	}{}
	if q := v.Question; !v.Done {
		answer.Question = &asking{ID: q.ID, Ask: q.Ask, How: q.How, Caution: q.Caution}
		for _, o := range q.Options {
			answer.Question.Options = append(answer.Question.Options, asksOneOf{o.ID, o.Answer})
		}
	}
	for _, f := range v.Ranked {
		own := []string{}
		for _, g := range f.Own {
			own = append(own, g.ID)
		}
		answer.Causes = append(answer.Causes, foundCause{f.Cause, f.Name, f.Guide.ID, own, f.Position.ID, figure(f.Probability), list(f.For), list(f.Against)})
	}
	return answer
}
