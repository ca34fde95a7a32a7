package kitfile

import (
	"reflect"

	"trailfieldkit/fieldkit"
)

// enum is a type that takes one of a few words.
type enum struct {
	noun  string
	words []string
}

// enums lists the types of fieldkit that take one of a few words.
var enums = map[reflect.Type]*enum{
	reflect.TypeFor[fieldkit.Side]():      enumOf("a side", fieldkit.Left, fieldkit.Right, fieldkit.Centre),
	reflect.TypeFor[fieldkit.Evidence]():  enumOf("a kind of evidence", fieldkit.EvidenceOrder...),
	reflect.TypeFor[fieldkit.Issuer]():    enumOf("an issuer of numbers", fieldkit.MakerNumber, fieldkit.ReplacementNumber, fieldkit.StandardNumber, fieldkit.CastingMark),
	reflect.TypeFor[fieldkit.Grade]():     enumOf("a grade of interchange", fieldkit.DropIn, fieldkit.WithChanges, fieldkit.OneWay, fieldkit.DoesNotFit),
	reflect.TypeFor[fieldkit.Terrain]():   enumOf("a terrain", fieldkit.Terrains...),
	reflect.TypeFor[fieldkit.Move]():      enumOf("a way to move", fieldkit.Moves...),
	reflect.TypeFor[fieldkit.Yardstick](): enumOf("a yardstick", fieldkit.Yardsticks...),
	reflect.TypeFor[fieldkit.Weekday]():   enumOf("a day of the week", fieldkit.Weekdays...),
	reflect.TypeFor[fieldkit.Dust]():      enumOf("an amount of dust", fieldkit.SomeDust, fieldkit.HeavyDust),
	reflect.TypeFor[fieldkit.Mode]():      enumOf("a mode of failure", fieldkit.Modes...),
	reflect.TypeFor[fieldkit.Judgement](): enumOf("a judgement", fieldkit.Judgements...),
	reflect.TypeFor[fieldkit.ItemType]():  enumOf("a type of item", fieldkit.SpareItem, fieldkit.ConsumableItem, fieldkit.ToolItem),
	reflect.TypeFor[fieldkit.System]():    enumOf("a family of units", fieldkit.Metric, fieldkit.Inch),
	reflect.TypeFor[fieldkit.Dimension](): enumOf("a dimension", fieldkit.DimLength, fieldkit.DimDistance, fieldkit.DimMass,
		fieldkit.DimVolume, fieldkit.DimTorque, fieldkit.DimPressure, fieldkit.DimTemperature, fieldkit.DimAngle,
		fieldkit.DimVoltage, fieldkit.DimCurrent, fieldkit.DimCount, fieldkit.DimText),
}

func enumOf[T ~string](noun string, values ...T) *enum {
	e := &enum{noun: noun}
	for _, v := range values {
		e.words = append(e.words, string(v))
	}
	return e
}

// own gives the enum's own word for one that was read; ok is false if it has none.
func (e *enum) own(word string) (own string, ok bool) {
	for _, w := range e.words {
		if w == word {
			return w, true
		}
	}
	return "", false
}

// refuse says what is wrong with a word, nothing if it is one of the enum's.
func (e *enum) refuse(word string) (what, do string, refused bool) {
	if _, ok := e.own(word); ok {
		return "", "", false
	}
	return quoted(word) + " is not " + e.noun, "write " + listed(e.words), true
}
