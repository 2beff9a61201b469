package segment_test

import (
	"fmt"
	"testing"
	"time"

	"seamrail/motion/sample"
	"seamrail/motion/segment"
)

func TestZZ(t *testing.T) {
	for _, tr := range []interface{ }{sample.Still(t), sample.Through(t)} {
		_ = tr
	}
	for name, tr := range map[string]any{} {
		_, _ = name, tr
	}
	st := sample.Through(t)
	t0 := time.Now()
	_, p, err := segment.Choose(st, 3)
	fmt.Println(time.Since(t0), err)
	fmt.Printf("%+v\n", p)
	st = sample.Still(t)
	t0 = time.Now()
	_, p, err = segment.Choose(st, 3)
	fmt.Println(time.Since(t0), err)
	fmt.Printf("%+v\n", p)
}
