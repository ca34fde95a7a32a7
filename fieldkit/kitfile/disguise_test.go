package kitfile_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/kitfile"
)

// What is not what it reads like is named with its place, and the kit loads with it.
func TestCheckReading(t *testing.T) {
	require.Empty(t, kitfile.CheckReading(data.DemoKit()))
	for name, c := range map[string]struct {
		spoil       func(k *fieldkit.Kit, p *fieldkit.Part)
		where, says string
	}{
		"right-to-left mark":    {func(_ *fieldkit.Kit, p *fieldkit.Part) { p.Name = "pads\u200f, front" }, "name", "⟨U+200F⟩"},
		"blank without width":   {func(_ *fieldkit.Kit, p *fieldkit.Part) { p.Note = "a line\nK-44\u200b10" }, "note", "⟨U+200B⟩"},
		"delete":                {func(_ *fieldkit.Kit, p *fieldkit.Part) { p.Note = "a\x7f" }, "note", "⟨U+007F⟩"},
		"number of two scripts": {func(_ *fieldkit.Kit, p *fieldkit.Part) { p.Numbers[0].Value = "\u041a-4410 B" }, "number 1, value", "two scripts"},
		"name of the kit":       {func(k *fieldkit.Kit, _ *fieldkit.Part) { k.Name = "Hob\u200bnail" }, "name", "⟨U+200B⟩"},
		"a name in two scripts": {func(_ *fieldkit.Kit, p *fieldkit.Part) { p.Name = "Ω pads" }, "", ""},
	} {
		t.Run(name, func(t *testing.T) {
			k := data.DemoKit()
			p, _ := k.Part("pads-front")
			p.Numbers = append([]fieldkit.Number{{Value: "K-1", Issuer: fieldkit.MakerNumber}}, p.Numbers...)
			c.spoil(&k, &p)
			parts, _ := fieldkit.CollectionNamed("parts")
			parts.Put(&k, p)
			loaded, err := kitfile.Load("kit.json", kitfile.Save(k))
			require.NoError(t, err)
			found := kitfile.CheckReading(loaded)
			if c.says == "" {
				require.Empty(t, found)
				return
			}
			require.Len(t, found, 1)
			assert.Contains(t, found[0].Where, c.where)
			assert.Contains(t, found[0].What, c.says)
			assert.NoError(t, fieldkit.ShowHidden(found[0].Where+found[0].What, false), "it is shown as it is")
		})
	}
}
