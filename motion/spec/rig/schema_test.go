package rig_test

import (
	"testing"

	"seamrail/motion/plan/sample"
	"seamrail/motion/spec/rig"
)

func TestTheSchemaIsMadeOfTheTags(t *testing.T) { sample.Schema(t, "rig", &rig.Raw{}, "axis") }
