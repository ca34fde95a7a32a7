package app

import (
	"fmt"
	"strings"

	"github.com/maxence-charriere/go-app/v10/pkg/app"

	"trailfieldkit/fieldkit"
)

// What is needed in a hurry: figures of the rig and whom to call, a line each, for
// the emergency page.

func (s *rigEditScreen) inNeed() app.UI {
	return section("In an emergency",
		app.P().Class("soft").Text("These stand on the emergency page, which can be read even if the program does not start."),
		s.form.area("figures", "Figures", "a line each, its name and the figure: weight loaded: 2.9 t; tyres on sand: 14 psi; engine oil: 6.2 L"),
		s.form.area("contacts", "Whom to call", "a line each, who and where: Ines, at home: +00 555 0117; crew radio: channel 9"),
	)
}

// figureLines and contactLines write a record's list as lines to edit.
func figureLines(list []fieldkit.RigFigure) string {
	lines := make([]string, len(list))
	for i, f := range list {
		lines[i] = f.Name + ": " + f.Value.String()
	}
	return strings.Join(lines, "\n")
}

func contactLines(list []fieldkit.Contact) string {
	lines := make([]string, len(list))
	for i, c := range list {
		lines[i] = c.Name + ": " + c.Line
	}
	return strings.Join(lines, "\n")
}

// readFigures reads the lines back. A figure whose name is still there keeps what a
// newer program wrote beside it.
func readFigures(text string, was []fieldkit.RigFigure) ([]fieldkit.RigFigure, error) {
	var list []fieldkit.RigFigure
	err := eachNamedLine(text, func(name, rest string) error {
		v, err := fieldkit.ParseValue(rest)
		if err != nil {
			return err
		}
		f := fieldkit.RigFigure{Name: name, Value: v}
		for _, old := range was {
			if old.Name == name {
				f.Extra = old.Extra
			}
		}
		list = append(list, f)
		return nil
	})
	return list, err
}

func readContacts(text string, was []fieldkit.Contact) ([]fieldkit.Contact, error) {
	var list []fieldkit.Contact
	err := eachNamedLine(text, func(name, rest string) error {
		c := fieldkit.Contact{Name: name, Line: rest}
		for _, old := range was {
			if old.Name == name {
				c.Extra = old.Extra
			}
		}
		list = append(list, c)
		return nil
	})
	return list, err
}

// eachNamedLine takes "name: rest" lines apart; empty lines are passed by. The name
// ends at the last colon with a blank after it, so that a name may hold one.
func eachNamedLine(text string, take func(name, rest string) error) error {
	n := 0
	for line := range strings.Lines(text) {
		n++
		line = strings.TrimSpace(line)
		if line == "" {
			continue
		}
		i := strings.LastIndex(line, ": ")
		if i <= 0 || strings.TrimSpace(line[i+2:]) == "" {
			return badField(fmt.Sprintf("line %d is not a name, a colon and what belongs to it", n), `write "weight loaded: 2.9 t"`)
		}
		if err := take(strings.TrimSpace(line[:i]), strings.TrimSpace(line[i+2:])); err != nil {
			return err
		}
	}
	return nil
}
