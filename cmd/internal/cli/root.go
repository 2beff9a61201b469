package cli

import (
	"errors"
	"fmt"
	"os"
	"regexp"
	"strconv"
	"strings"
	"sync"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"seamrail/cmd/internal/atomicfile"
	"seamrail/cmd/internal/cli/command"
	"seamrail/cmd/internal/cli/connect"
	"seamrail/cmd/internal/cli/footage"
	"seamrail/cmd/internal/cli/measure"
	"seamrail/cmd/internal/cli/newfiles"
	"seamrail/cmd/internal/cli/page"
	"seamrail/cmd/internal/cli/plot"
	"seamrail/cmd/internal/cli/reach"
	"seamrail/cmd/internal/cli/sequence"
	"seamrail/cmd/internal/cli/shake"
	"seamrail/cmd/internal/cli/spin"
	"seamrail/cmd/internal/cli/takes"
	"seamrail/cmd/internal/deadman"
	"seamrail/cmd/internal/exit"
	"seamrail/motion/base/list"
	"seamrail/motion/base/source"
)

const rootLong = `seamrail plans looping moves of a camera rail and a turntable, so that the
last frame of a film meets its first.

A shot file says what the picture should do, in on-screen time. A rig file
says what the machine can do, in real time. From the two comes a checked plan,
and from the plan a report, plots, tables and G-code.

Without a SHOT every command uses a built-in one: a brass lantern of six panes
on a bench rail and a turntable.

Exit codes: 0 fine, 1 the plan breaks a limit, 2 a flag or file is not right,
3 the rig or its port failed, or a take was aborted and position lost, 130 it was
told to stop and has.`

const rootExamples = `  seamrail new lantern          write a shot and a rig to start from
  seamrail plan                 check the built-in shot and report
  seamrail make -o out          everything in one folder`

// NewRoot returns the whole command tree.
func NewRoot(s command.Streams) *cobra.Command {
	cmd := &cobra.Command{
		Use:           "seamrail",
		Short:         "Plan looping rail and turntable moves that close",
		Long:          rootLong,
		Example:       rootExamples,
		Version:       command.Version(),
		SilenceErrors: true,
		SilenceUsage:  true,
		Args:          noSuchCommand,

		PersistentPreRunE: named,

		RunE: func(c *cobra.Command, _ []string) error { return c.Help() },
	}
	cmd.SetIn(s.In)
	cmd.SetOut(s.Out)
	cmd.SetErr(s.Err)
	cmd.SetFlagErrorFunc(flagError)
	cmd.SetVersionTemplate("seamrail {{.Version}}\n")
	cmd.SetHelpCommand(newCmdHelp(s))
	cmd.SetHelpFunc(helped(cmd.HelpFunc()))
	for i, g := range groups(s) {
		id := strconv.Itoa(i)
		cmd.AddGroup(&cobra.Group{ID: id, Title: g.title})
		for _, c := range g.commands {
			c.GroupID = id
		}
		cmd.AddCommand(g.commands...)
		cmd.SetHelpCommandGroupID(id) // and at last that of what is about the program
		cmd.SetCompletionCommandGroupID(id)
	}
	return cmd
}

// group is commands that somebody wants who is about to do one thing.
type group struct {
	title    string
	commands []*cobra.Command
}

// groups are all commands, in the order in which a day goes.
func groups(s command.Streams) []group {
	return []group{
		{"Begin:", []*cobra.Command{newfiles.NewCmdNew(s, nil), page.NewCmdPage(s, nil)}},
		{"Plan and look:", []*cobra.Command{
			NewCmdPlan(s, nil), plot.NewCmdPlot(s, nil), NewCmdPreview(s, nil), NewCmdAbove(s, nil),
			spin.NewCmdSpin(s, nil), NewCmdCues(s, nil),
		}},
		{"Make files:", []*cobra.Command{NewCmdMake(s, nil), NewCmdExport(s, nil), NewCmdSheet(s, nil)}},
		{"Drive and film:", []*cobra.Command{
			NewCmdPorts(s, nil), connect.NewCmdConnect(s, nil), NewCmdJog(s, nil), measure.NewCmdMeasure(s, nil),
			NewCmdRamp(s, nil), NewCmdMark(s, nil), NewCmdDrive(s, nil),
		}},
		{"Ask for something better:", []*cobra.Command{
			reach.NewCmdReach(s, nil), NewCmdFit(s, nil), NewCmdSoften(s, nil), shake.NewCmdShake(s, nil),
		}},
		{"Clip and edit:", []*cobra.Command{footage.NewCmdFootage(s, nil), takes.NewCmdTakes(s, nil), sequence.NewCmdSequence(s, nil)}},
		{"About the program:", []*cobra.Command{NewCmdMan(s, nil), newCmdNotices(s)}},
	}
}

// flagError says what is wrong with a flag in the words of who typed it, where the library
// has those of the language that the program is written in.
func flagError(_ *cobra.Command, err error) error {
	var wrong *pflag.InvalidValueError
	if !errors.As(err, &wrong) {
		return exit.Misused("%w", err)
	}
	want, known := map[string]string{
		"int": "a whole number", "int64": "a whole number", "float64": "a number", "bool": "true or false",
	}[wrong.GetFlag().Value.Type()]
	if !known {
		return exit.Misused("%w", err)
	}
	return exit.Misused("--%s %q must be %s", wrong.GetFlag().Name, wrong.GetValue(), want)
}

// What the library says of flags that belong together, or that do not.
var (
	lacking = regexp.MustCompile(`^if any flags in the group \[(.+)\] are set they must all be set; missing \[(.+)\]$`)
	rivals  = regexp.MustCompile(`^if any flags in the group \[.+\] are set none of the others can be; \[(.+)\] were all set$`)
)

// flagsTogether says so in the words of this program.
func flagsTogether(err error) error {
	named := func(flags string) string { return "--" + strings.Join(strings.Fields(flags), " and --") }
	if m := lacking.FindStringSubmatch(err.Error()); m != nil {
		return exit.Misused("%s go together; %s is missing", named(m[1]), named(m[2]))
	}
	if m := rivals.FindStringSubmatch(err.Error()); m != nil {
		return exit.Misused("%s say different things; keep one of them", named(m[1]))
	}
	return err
}

// noSuchCommand refuses a first word that is no command, with the nearest.
func noSuchCommand(c *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	if near := source.Nearest(args[0], list.Map(c.Commands(), (*cobra.Command).Name)); near != "" {
		return exit.Misused("there is no command %q; did you mean %q?", args[0], near)
	}
	return exit.Misused("there is no command %q", args[0])
}

// Main is the whole program: it runs what the system's command line says, and
// returns the exit code. Nothing is written any more after it.
func Main() int {
	code := Run(command.System(), os.Args[1:])
	atomicfile.Abandon() // what a page was still writing when it was ended
	return code
}

// Run runs a command line and returns the exit code.
func Run(s command.Streams, args []string) (code int) {
	if code, asked := deadman.Asked(args); asked {
		return code
	}
	deadman.Guard(func() { code = run(s, args) })
	return code
}

func run(s command.Streams, args []string) int {
	undated()
	release := sync.OnceFunc(guard(s))
	defer release()
	s = s.Guarded(release)
	root := NewRoot(s)
	root.SetArgs(args)
	cmd, err := root.ExecuteC()
	if err == nil {
		return exit.Fine
	}
	err = flagsTogether(err)
	command.Complain(s.Err, err)
	var own *exit.Error
	if errors.As(err, &own) && own.Code == exit.Usage {
		fmt.Fprintf(s.Err, "See \"%s --help\".\n", cmd.CommandPath())
	}
	return exit.Code(err)
}
