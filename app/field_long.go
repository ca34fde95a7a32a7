package app

import (
	"fmt"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"
)

// A list of hundreds is not picked from with a thumb, and drawing it takes longer than
// the rest of its screen. Of a long one only the first lines are drawn, and a line above
// it looks among all.
const (
	manyToPick = 150
	pickable   = 50
)

// longChoice is a choice of more than can be drawn.
func (f *field) longChoice(choice app.HTMLSelect) app.UI {
	list, found := shortened(f.Options, f.Value, f.look)
	says := fmt.Sprintf("%d on the list", found)
	if found > pickable {
		says = fmt.Sprintf("%d of %d drawn: type part of the name to see others", pickable, found)
	}
	return app.Div().Class("block").Body(
		app.Input().Type("text").AutoComplete(false).ID(f.id()+"-look").Aria("label", "Look in the list: "+f.Label).
			Placeholder("look in the list").OnInput(func(ctx app.Context, _ app.Event) { f.look = ctx.JSSrc().Get("value").String() }),
		&relisted{List: f.CompoID() + "/" + f.look, Draw: func() app.UI { return choice.Body(f.choices(list)) }},
		app.P().Class("hint").Aria("live", "polite").Text(says),
	)
}

// relisted is drawn anew for another list: a choice whose lines change under it forgets
// on the page what was chosen.
type relisted struct {
	app.Compo
	List string
	Draw func() app.UI
}

// CompoID tells go-app when it is another list.
func (r *relisted) CompoID() string { return r.List }

func (r *relisted) Render() app.UI { return r.Draw() }

// shortened keeps of a long list what is no record, what is chosen, and the first that
// have all words looked for; found counts those of the whole list.
func shortened(options []option, chosen, look string) (list []option, found int) {
	words := strings.Fields(strings.ToLower(look))
	var first []option
	for _, o := range options {
		if o.value == "" || o.value == newPart || o.value == chosen {
			list = append(list, o)
			continue
		}
		if !hasWords(o.label, words) {
			continue
		}
		if found++; found <= pickable {
			first = append(first, o)
		}
	}
	return append(list, first...), found
}

func hasWords(label string, words []string) bool {
	label = strings.ToLower(label)
	for _, w := range words {
		if !strings.Contains(label, w) {
			return false
		}
	}
	return true
}
