package lesson

// The closed sets of the coach's language. Who adds to one runs generator/kinds_test.go: it
// names every switch and table of the house that has to know the new member.

// StatementKind is the keyword of a statement of a work block.
type StatementKind string

const (
	Given   StatementKind = "given"
	Measure StatementKind = "measure"
	Record  StatementKind = "record"
	Predict StatementKind = "predict"
	Find    StatementKind = "find"
	Key     StatementKind = "key"
	Slip    StatementKind = "slip"
	Choose  StatementKind = "choose"
	Say     StatementKind = "say"
	Listen  StatementKind = "listen"
)

// StatementKinds are all of them, in the order in which a block uses them.
var StatementKinds = []StatementKind{Given, Measure, Record, Predict, Find, Key, Slip, Choose, Say, Listen}

// BelongsAbove tells whether statements of a kind say something of the find, choose or say above them, for
// mentors. They define no name and have no row of their own on a page.
func (k StatementKind) BelongsAbove() bool {
	switch k {
	case Key, Slip, Listen:
		return true
	case Given, Measure, Record, Predict, Find, Choose, Say:
	}
	return false
}

// Judged tells whether answers to a statement of a kind can be wrong, be it only by an unlikely size.
func (k StatementKind) Judged() bool { return k != Predict && k != Say }

// BlockKind is the first word of a fence that works with runs, or shows figures.
type BlockKind string

const (
	RunsBlock    BlockKind = "runs"
	ChartBlock   BlockKind = "chart"
	CompareBlock BlockKind = "compare"
	ReadersBlock BlockKind = "readers"
	ShowBlock    BlockKind = "show"
)

// BlockKinds are all of them.
var BlockKinds = []BlockKind{RunsBlock, ChartBlock, CompareBlock, ReadersBlock, ShowBlock}

// ChartKind is the line of a chart block that tells what the chart draws.
type ChartKind string

const (
	LineChart   ChartKind = "line"   // formulas of something that varies
	DotsChart   ChartKind = "dots"   // every run of each group
	BarsChart   ChartKind = "bars"   // each group's mean with its interval
	StepsChart  ChartKind = "steps"  // offsets cycle by cycle, what chance alone would do, and the steps
	FittedChart ChartKind = "fitted" // one column over another, with the straight line and what is left of it
	PathChart   ChartKind = "path"   // arcs seen from above
)

// ChartKinds are all of them, in the order in which a problem names them.
var ChartKinds = []ChartKind{LineChart, DotsChart, BarsChart, StepsChart, FittedChart, PathChart}

// FigureKind is the keyword of a figure that follows the page's boxes.
type FigureKind string

const (
	UnrollFigure  FigureKind = "unroll"  // a wheel rolled out along a tape
	LapsFigure    FigureKind = "laps"    // a distance cut into rotations
	TapeFigure    FigureKind = "tape"    // where runs stopped, on a tape
	PathFigure    FigureKind = "path"    // runs seen from above
	ReadFigure    FigureKind = "read"    // a tape to read
	PartFigure    FigureKind = "part"    // a part of a whole as a bar
	ShuffleFigure FigureKind = "shuffle" // what chance alone does with two groups of runs
)

// FigureKinds are all of them, in the order in which a problem names them.
var FigureKinds = []FigureKind{UnrollFigure, LapsFigure, TapeFigure, PathFigure, ReadFigure, PartFigure, ShuffleFigure}

// GaugeKind is the keyword of a measuring aid that is printed at true scale.
type GaugeKind string

const (
	RulerGauge   GaugeKind = "ruler"
	WrapGauge    GaugeKind = "wrap"
	TargetGauge  GaugeKind = "target"
	FanGauge     GaugeKind = "fan"
	RoseGauge    GaugeKind = "rose"
	SquaresGauge GaugeKind = "squares"
)

// GaugeKinds are all of them.
var GaugeKinds = []GaugeKind{RulerGauge, WrapGauge, TargetGauge, FanGauge, RoseGauge, SquaresGauge}
