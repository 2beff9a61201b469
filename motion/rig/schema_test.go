package rig_test

import (
	"testing"

	"seamrail/motion/rig"
	"seamrail/motion/sample"
)

func TestTheSchemaIsMadeOfTheTags(t *testing.T) { sample.Schema(t, "rig", &rig.Raw{}, "axis") }
