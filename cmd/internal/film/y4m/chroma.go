package y4m

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"sync"
)

// chroma is how the planes behind luma are sampled: how many there are, and over how many
// pixels a sample goes. None is a recording in grey.
type chroma struct{ planes, across, down int64 }

// samples is how many there are behind luma: planes are rounded up.
func (c chroma) samples(width, height int64) int64 {
	if c.planes == 0 {
		return 0
	}
	return c.planes * ((width + c.across - 1) / c.across) * ((height + c.down - 1) / c.down)
}

// chromas are those that have a name. Where samples of 4:2:0 lie makes no difference to luma.
var chromas = sync.OnceValue(func() map[string]chroma {
	half := chroma{2, 2, 2}
	return map[string]chroma{
		"420": half, "420jpeg": half, "420mpeg2": half, "420paldv": half,
		"411": {2, 4, 1}, "422": {2, 2, 1}, "444": {2, 1, 1}, "444alpha": {3, 1, 1},
		"mono": {},
	}
})

// deep are the bits that a sample may have beyond 8.
func deep() []int { return []int{9, 10, 12, 14, 16} }

// parseChroma reads a colour space as writers have it: "420jpeg", "422p10", "mono12".
func parseChroma(value string) (chroma, int, error) {
	if c, ok := chromas()[value]; ok {
		return c, 8, nil
	}
	for _, bits := range deep() {
		end := strconv.Itoa(bits)
		base, ok := strings.CutSuffix(value, end)
		if !ok {
			continue
		}
		if base, ok = strings.CutSuffix(base, "p"); ok != (base == "mono") && slices.Contains([]string{"420", "422", "444", "mono"}, base) {
			return chromas()[base], bits, nil
		}
	}
	return chroma{}, 0, fmt.Errorf("colour space C%.40q is none that is read; 420jpeg, 422, 444, mono and their kin, as 420p10 or mono16, are", value)
}
