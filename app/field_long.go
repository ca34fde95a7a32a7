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
	list, found := shortened(f.Options, f.first, f.look)
	if !offers(list, f.Value) {
		f.first = f.Value
		list, found = shortened(f.Options, f.first, f.look)
	}
	says := fmt.Sprintf("%d on the list", found)
	switch {
	case found == 0:
		says = "Nothing on the list has all these words."
	case found > pickable:
		says = fmt.Sprintf("%d of %d shown: type part of the name to see others", pickable, found)
	}
	return app.Div().Class("block").Body(
		app.Input().Type("text").AutoComplete(false).ID(f.id()+"-look").Aria("label", "Look in the list: "+f.Label).
			Placeholder("look in the list").OnInput(func(ctx app.Context, _ app.Event) { f.look = ctx.JSSrc().Get("value").String() }),
		&relisted{List: f.CompoID() + "/" + f.first + "/" + f.look, Draw: func() app.UI { return choice.Body(f.choices(list)) }},
		app.P().Class("hint").Aria("live", "polite").Text(says),
	)
}

// relisted is drawn anew for another list: a choice whose lines change under it forgets
// on the page what was chosen. So choosing one of the lines leaves them where they are.
type relisted struct {
	app.Compo
	List string
	Draw func() app.UI
}

// CompoID tells go-app when it is another list.
func (r *relisted) CompoID() string { return r.List }

func (r *relisted) Render() app.UI { return r.Draw() }

// shortened keeps of a long list what is no record, the one to put first, and the first
// that have all words looked for; found counts those of the whole list that have them.
func shortened(options []option, ahead, look string) (list []option, found int) {
	words := strings.Fields(strings.ToLower(look))
	var first []option
	for _, o := range options {
		noRecord := o.value == "" || o.value == newPart
		has := !noRecord && hasWords(o.label, words)
		if has {
			found++
		}
		switch {
		case noRecord || o.value == ahead:
			list = append(list, o)
		case has && len(first) < pickable:
			first = append(first, o)
		}
	}
	return append(list, first...), found
}

func hasWords(label string, words []string) bool {
	if len(words) > 0 {
		label = strings.ToLower(label)
	}
	for _, w := range words {
		if !strings.Contains(label, w) {
			return false
		}
	}
	return true
}
