package spares

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"trailfieldkit/fieldkit"
)

func TestWeightCurve(t *testing.T) {
	kit := testKit(t)
	trip := testTrip()
	trip.Distance *= 3
	trip.Limits.Mass = 5 * fieldkit.Kilogram
	curve := WeightCurve(kit, testCatalog(), testGuides(t), trip, nil, nil)
	require.Len(t, curve, curvePoints)
	for i, p := range curve {
		assert.LessOrEqual(t, p.Mass, p.Limit)
		assert.True(t, p.Proved)
		if i > 0 {
			assert.Greater(t, p.Limit, curve[i-1].Limit)
			assert.GreaterOrEqual(t, float64(p.Value), float64(curve[i-1].Value))
		}
	}
	assert.Greater(t, float64(curve[curvePoints-1].Value), float64(curve[0].Value))
	assert.False(t, curve[0].Typical, "nothing weighs nothing")
	assert.True(t, curve[curvePoints-1].Typical, "the joint press is not weighed, its kind is")
	assert.LessOrEqual(t, curve[curvePoints-1].Limit, 2*trip.Limits.Mass)

	asked := 0
	assert.Less(t, len(WeightCurve(kit, testCatalog(), testGuides(t), trip, nil, func() bool { asked++; return asked < 3 })), curvePoints)
}
