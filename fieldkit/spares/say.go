package spares

import (
	"fmt"

	"trailfieldkit/fieldkit"
)

// Guess marks a figure that rests on a starting guess: "≈ 14 min (guess)". GuessMeans
// says once what that is.
func Guess(figure string, guessed bool) string {
	if !guessed {
		return figure
	}
	return "≈ " + figure + " (guess)"
}

// GuessMeans explains the mark.
const GuessMeans = "≈ and (guess) mark a figure that rests on a starting guess, of how often parts fail, how long things take or what they weigh. Your readings, your log and your own figures take its place as you write them down"

// JustLeftOut is the place in LeftOut of the most useful thing that only limits keep out,
// -1 for none.
func (p Proposal) JustLeftOut() int {
	for i, l := range p.LeftOut {
		if l.Why == "" {
			return i
		}
	}
	return -1
}

// Words say what a trip comes to, with how sure that is; guessed marks what rests on
// starting guesses.
func (o Outcome) Words(guessed bool) string {
	return fmt.Sprintf("every rig drives home by itself %s of the time, 9 times in 10 between %s and %s; %s lost on average, between %s and %s",
		Guess(Percent(o.Home), guessed), Percent(o.HomeWithin[0]), Percent(o.HomeWithin[1]), Guess(o.Lost.String(), guessed), o.LostWithin[0], o.LostWithin[1])
}

// Words say what leaving a thing at home costs once the rest is planned anew; guessed
// marks what rests on starting guesses.
func (d Drop) Words(guessed bool) string {
	switch {
	case !d.Proved:
		return fmt.Sprintf("left at home and the rest planned anew: between %s and %s more is lost", Guess(d.Costs.String(), guessed), Guess(d.Most.String(), guessed))
	case d.Costs < 0.5/60:
		return "left at home and the rest planned anew: nothing more is lost"
	}
	return fmt.Sprintf("left at home and the rest planned anew: %s more is lost", Guess(d.Costs.String(), guessed))
}

// Words say what would bring a thing in; guessed marks what rests on starting guesses.
func (e Entry) Words(first fieldkit.System, guessed bool) string {
	more := ""
	switch {
	case e.Mass > 0:
		more = e.Mass.Both(first) + " more weight"
	case e.Money.Cents > 0:
		more = "no weight alone brings it in; " + e.Money.String() + " more to spend"
	case e.Volume > 0:
		more = "neither weight nor money alone brings it in; " + e.Volume.Both(first) + " more space"
	case !e.Done:
		return "how much more would bring it in was not worked out to the end"
	case e.Costs == 0:
		return "it is as good as what is on the list: take it along by hand, or plan again"
	default:
		return "no one limit keeps it out: raising only the weight, only the money or only the space does not bring it in"
	}
	least := " would bring it in, and nothing less"
	if !e.Proved {
		least = " would bring it in, perhaps less"
	}
	return fmt.Sprintf("%s%s; as the limits are, taking it along would cost %s", more, least, Guess(e.Costs.String(), guessed))
}
