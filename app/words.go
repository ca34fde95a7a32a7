package app

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"

	"trailfieldkit/fieldkit"
)

// proofWords says how, when and by whom something was proven.
func proofWords(p *fieldkit.Proof) string {
	if p == nil || p.How == "" {
		return "not proven yet"
	}
	words := []string{string(p.How)}
	if !p.On.IsZero() {
		words = append(words, p.On.Show())
	}
	if p.By != "" {
		words = append(words, "by "+p.By)
	}
	if p.Note != "" {
		words = append(words, p.Note)
	}
	return strings.Join(words, ", ")
}

// numberWords says whose number it is and how it was proven.
func numberWords(n fieldkit.Number) string {
	who := map[fieldkit.Issuer]string{
		fieldkit.MakerNumber:       "maker's number",
		fieldkit.ReplacementNumber: "replacement number",
		fieldkit.StandardNumber:    "standard designation",
		fieldkit.CastingMark:       "casting mark",
	}[n.Issuer]
	if n.From != "" {
		who += ", " + n.From
	}
	return who + " · " + proofWords(n.Proof)
}

// measurementWords prints a reading with how it was taken.
func measurementWords(m fieldkit.Measurement, first fieldkit.System) string {
	words := m.Value.Both(first)
	if m.How != "" {
		words += ", " + m.How
	}
	if m.Worn {
		words += ", worn part"
	}
	if !m.On.IsZero() {
		words += ", " + m.On.Show()
	}
	return words
}

// fittedWhen says when and at what odometer a part was fitted.
func fittedWhen(p fieldkit.Position, first fieldkit.System) string {
	var words []string
	if !p.Fitted.IsZero() {
		words = append(words, p.Fitted.Show())
	}
	if p.FittedAt > 0 {
		words = append(words, "at "+p.FittedAt.Show(first))
	}
	return strings.Join(words, " ")
}

// odometer prints a distance driven, nothing when it is not known.
func odometer(d fieldkit.Distance) string { return odometerWords(d, kept.first()) }

func odometerWords(d fieldkit.Distance, first fieldkit.System) string {
	if d == 0 {
		return ""
	}
	return d.Show(first)
}

// engineHours prints what an hour meter showed, nothing when it is not known.
func engineHours(h int) string {
	if h == 0 {
		return ""
	}
	return counted(h, "engine hour")
}

// titles joins the names of positions.
func titles(list []fieldkit.Position) string {
	var names []string
	for _, p := range list {
		names = append(names, p.Title())
	}
	return strings.Join(names, "; ")
}

// itemWords names things from stock with how many: "1 × axle U-joint".
func itemWords(k fieldkit.Kit, items []fieldkit.Item) []string {
	var words []string
	for _, it := range items {
		words = append(words, fmt.Sprintf("%d × %s", it.Count, itemName(k, it.Type, it.Item)))
	}
	return words
}

// itemName names a part, a consumable or a tool; its ID if it is not in the kit
// any more.
func itemName(k fieldkit.Kit, kind fieldkit.ItemType, id string) string {
	if name, ok := k.ItemName(kind, id); ok {
		return name
	}
	return "no longer in the kit (" + id + ")"
}

func itoa(n int) string { return strconv.Itoa(n) }

// uncapital makes a title fit into a sentence; names such as U-joint keep their
// capital.
func uncapital(s string) string {
	r := []rune(s)
	if len(r) > 1 && unicode.IsUpper(r[0]) && unicode.IsLower(r[1]) {
		r[0] = unicode.ToLower(r[0])
	}
	return string(r)
}

// counted prints a number with its noun: "1 rig", "2 rigs".
func counted(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return strconv.Itoa(n) + " " + noun + "s"
}

// marked keeps the mark of a guess on one line with its figure, and the dots of what is
// under way with their word.
func marked(text string) string {
	return strings.NewReplacer("≈ ", "≈\u00a0", " …", "\u00a0…").Replace(text)
}

// unbroken is marked, and keeps a number and its unit on one line of a narrow screen.
func unbroken(text string) string {
	r := []rune(marked(text))
	for i := 1; i+1 < len(r); i++ {
		if r[i] == ' ' && unicode.IsDigit(r[i-1]) && (unicode.IsLetter(r[i+1]) || r[i+1] == '%') {
			r[i] = '\u00a0'
		}
	}
	return string(r)
}
