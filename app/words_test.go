package app

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
)

func TestCapital(t *testing.T) {
	for text, want := range map[string]string{
		"": "", "axle U-joint": "Axle U-joint", "U-joint": "U-joint", "1-3/8 in": "1-3/8 in", "öl": "öl",
	} {
		assert.Equal(t, want, capital(text))
	}
}

func TestUncapital(t *testing.T) {
	for text, want := range map[string]string{
		"": "", "Brake pads": "brake pads", "U-joint of a drive shaft": "U-joint of a drive shaft", "RTV sealant": "RTV sealant", "O": "O",
	} {
		assert.Equal(t, want, uncapital(text))
	}
}

func TestCounted(t *testing.T) {
	assert.Equal(t, "0 rigs", counted(0, "rig"))
	assert.Equal(t, "1 rig", counted(1, "rig"))
	assert.Equal(t, "12 rigs", counted(12, "rig"))
}

func TestItemName(t *testing.T) {
	k := data.DemoKit()
	assert.Equal(t, "axle U-joint 1350, sealed", itemName(k, fieldkit.SpareItem, "ujoint-1350"))
	assert.Equal(t, "brake fluid DOT 4", itemName(k, fieldkit.ConsumableItem, "brake-fluid"))
	assert.Equal(t, "no longer in the kit (brake-fluid)", itemName(k, fieldkit.SpareItem, "brake-fluid"), "each type has its own list")
	assert.Equal(t, "no longer in the kit (x)", itemName(fieldkit.Kit{}, fieldkit.ToolItem, "x"))
}

func TestPercent(t *testing.T) {
	for p, want := range map[float64]string{
		0: "under 1 %", 0.0049: "under 1 %", 0.005: "0 %", 0.01: "1 %", 0.125: "12 %", 0.5: "50 %", 0.994: "99 %", 0.996: "over 99 %", 1: "over 99 %",
	} {
		assert.Equal(t, want, percent(p), "%v", p)
	}
}

func TestBytesWords(t *testing.T) {
	assert.Equal(t, "999 kB", bytesWords(999_999))
	assert.Equal(t, "1.0 MB", bytesWords(1_000_000))
	assert.Equal(t, "10.8 GB", bytesWords(10_800_000_000))
}

// A picture is never enlarged and keeps its shape to a pixel.
func TestScaled(t *testing.T) {
	for _, c := range []struct{ w, h, side, wantW, wantH int }{
		{4000, 3000, 1280, 1280, 960},
		{3000, 4000, 1280, 960, 1280},
		{800, 600, 1280, 800, 600},
		{1280, 1280, 1280, 1280, 1280},
		{10000, 3, 1280, 1280, 1},
		{0, 0, 1280, 0, 0},
	} {
		w, h := scaled(c.w, c.h, c.side)
		assert.Equal(t, [2]int{c.wantW, c.wantH}, [2]int{w, h}, "%d×%d", c.w, c.h)
	}
}

func TestUnbroken(t *testing.T) {
	assert.Equal(t, "Play 0.006\u00a0in (0.16\u00a0mm)", unbroken("Play 0.006 in (0.16 mm)"))
	assert.Equal(t, "Home ≈\u00a073\u00a0% (guess)", unbroken("Home ≈ 73 % (guess)"))
	assert.Equal(t, "1 × joint, left", unbroken("1 × joint, left"))
	assert.Empty(t, unbroken(""))
}
