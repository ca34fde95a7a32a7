package counter

import (
	"fmt"
	"strings"

	"trailfieldkit/fieldkit"
)

// TextWidth is the longest line of a card as text: it fits a message and a receipt
// printer in small print.
const TextWidth = 80

// maxStandInsInText keeps the text to one page; the screen shows all.
const maxStandInsInText = 5

// Text gives the card as plain text to share or print, the system read first in front.
func (c Card) Text(first fieldkit.System) string {
	var s sheet
	s.line(strings.ToUpper(c.Title))
	s.item("Ask for: ", c.Ask)
	if c.Donor != "" {
		s.item("It is from: ", c.Donor)
		s.item("      ", c.DonorNote)
	}
	if c.NotFor != "" {
		s.item("      ", strings.ToUpper(c.NotFor))
	}
	s.section("CAUTION", len(c.Cautions))
	for _, text := range c.Cautions {
		s.item("! ", text)
	}
	s.section("NUMBERS", len(c.Numbers))
	for _, n := range c.Numbers {
		s.item("  ", n.Value)
		s.item("      ", n.Label+" ("+n.Proof+")")
	}
	s.section("MEASURE BEFORE YOU PAY", len(c.Checks))
	for _, check := range c.Checks {
		s.item("[ ] ", check.text(first))
		s.item("      ", check.hint())
	}
	s.section("LOOKS LIKE IT, DOES NOT FIT", len(c.LookAlikes)+len(c.DoesNotFit))
	for _, like := range c.LookAlikes {
		s.item("- ", like.Name+": "+like.Tell)
	}
	for _, r := range c.DoesNotFit {
		s.item("- ", withNumbers(r.Name, r.Numbers)+": "+r.Why)
		s.item("  ! ", r.Yet)
	}
	s.section("BUY WITH IT", len(c.BuyWith))
	for _, text := range c.BuyWith {
		s.item("- ", text)
	}
	s.section("IF THEY HAVE NONE", len(c.StandIns))
	for i, in := range c.StandIns {
		if i == maxStandInsInText {
			s.item("   ", fmt.Sprintf("and %d more in the kit", len(c.StandIns)-i))
			break
		}
		in.write(&s, i+1)
	}
	s.section("WHERE", len(c.Stores))
	for i, store := range c.Stores {
		s.item(fmt.Sprintf("%d. ", i+1), store.Name+": "+store.Say)
	}
	s.section("NOT KNOWN", len(c.Missing))
	for _, text := range c.Missing {
		s.item("- ", text)
	}
	return s.String()
}

func (c Check) text(first fieldkit.System) string {
	value := "not measured"
	if c.Measured {
		value = c.Value.Both(first)
	}
	text := c.Name + ": " + value
	if c.Worn {
		text += ", on a worn part"
	}
	if c.Must {
		text += " (must agree)"
	}
	return text
}

func (c Check) hint() string {
	words := []string{}
	for _, w := range []string{c.How, c.Why} {
		if w != "" {
			words = append(words, w)
		}
	}
	if len(words) == 2 {
		return words[0] + "; if it differs: " + words[1]
	}
	return strings.Join(words, "")
}

func (in StandInLine) write(s *sheet, n int) {
	s.item(fmt.Sprintf("%d. ", n), string(in.Grade)+": "+withNumbers(in.Name, in.Numbers))
	if in.Stock > 0 {
		s.item("   ", fmt.Sprintf("%d in stock", in.Stock))
	}
	if in.Donor != "" {
		s.item("   ", "from "+in.Donor)
	}
	for _, change := range in.Changes {
		s.item("   - ", "change: "+change)
	}
	s.item("   ", "known by: "+in.Chain)
	if in.Doubt != "" {
		s.item("   ! ", in.Doubt)
	}
}

func withNumbers(name string, numbers []string) string {
	if len(numbers) == 0 {
		return name
	}
	return name + ", " + strings.Join(numbers, ", ")
}
