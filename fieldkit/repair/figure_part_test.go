package repair_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/repair"
)

// What the crew wrote at a part stands before the computed figure: the part itself
// first, then what hangs under it, then what sits beside it.
func TestTorqueOfPart(t *testing.T) {
	kit := farm(t)
	torque := func(part int, name, text string) {
		kit.Parts.Ref(part).Measurements = append(kit.Parts.Ref(part).Measurements, fieldkit.Measurement{Name: name, Value: value(t, text), How: "maker's leaflet"})
	}
	kit.Positions.Ref(2).Part = "hinge-b"
	bolt := repair.Torque{Fastener: "post bolt, M12", Thread: "M12x1.75"}
	at := func(position string) (string, bool) {
		p, _ := kit.Position(position)
		found, ok := bolt.OfPart(kit, p)
		if !ok {
			return "", false
		}
		return found.Text(bolt.Fastener, fieldkit.Metric), true
	}
	_, ok := at("upper")
	assert.False(t, ok)
	torque(0, "play", "1 mm")
	torque(0, "torque, leaf bolt", "20 N·m")
	torque(0, "torque, post bolt", "12 mm") // no torque at all
	_, ok = at("upper")
	assert.False(t, ok)

	torque(1, " Torque,  Post bolt", "88 N·m")
	text, ok := at("upper")
	require.True(t, ok)
	assert.Equal(t, "post bolt: 88 N·m (65 lb-ft); as written at hinge B, maker's leaflet", text, "beside it") // 88 N·m / 1.3558 (NIST SP 811, B.8)
	torque(0, "torque, post bolt", "90 N·m")
	text, _ = at("upper")
	assert.Contains(t, text, "90 N·m", "its own part first")
	text, _ = at("leaf")
	assert.Contains(t, text, "90 N·m", "under it")
	_, ok = at("")
	assert.False(t, ok)
	assert.Equal(t, "torque, post bolt", repair.TorqueName(bolt.Fastener))
}
