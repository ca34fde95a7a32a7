package main

import (
	"context"
	"flag"
	"fmt"
	"io"
	"math"
	"strings"

	"trailfieldkit/data"
	"trailfieldkit/fieldkit"
	"trailfieldkit/fieldkit/fastener"
)

const torqueHelp = `
fieldkit torque -thread THREAD -grade GRADE [-dry | -oiled | -zinc | -k K]
                [-percent-proof P] [-lever LENGTH] [-grip LENGTH] [-json]

Says how tight a bolt is to be where the maker's figure is not at hand: T = K·D·F, with
the range that its friction may give. The maker's figure always goes first; there is
none here for wheel nuts, gaskets, soft joints and bolts that are used once.

  -thread THREAD     9/16-18 UNF, 1/2-13, M14x1.5, M10
  -grade GRADE       2, 5 or 8 (inch), 4.6 to 12.9 (metric), as marked on the head
  -dry               clean plain steel, K 0.20 (if nothing is said)
  -oiled             oil, grease or anti-seize on the thread, K 0.15
  -zinc              zinc plated, K 0.20
  -k K               your own nut factor, 0.05 to 0.60
  -percent-proof P   preload as a share of the proof load (default 75)
  -lever LENGTH      without a torque wrench: pull square at this distance, 300mm or 12in
  -grip LENGTH       what the bolt holds together: says how far to turn from snug
  -json              print one JSON object instead of text

JSON fields: torque_nm, torque_lbft, low_nm, high_nm (the same preload if the friction
is at the end of its range), preload_n, k, stress_area_mm2, proof_mpa, source.

Examples:
  fieldkit torque -thread 1/2-13 -grade 8
  fieldkit torque -thread M12x1.5 -grade 10.9 -oiled -lever 400mm
`

// torqueAnswer is what torque prints as JSON.
type torqueAnswer struct {
	NM     float64  `json:"torque_nm"`
	LbFt   float64  `json:"torque_lbft"`
	Low    float64  `json:"low_nm"`
	High   float64  `json:"high_nm"`
	N      float64  `json:"preload_n"`
	K      float64  `json:"k"`
	Area   float64  `json:"stress_area_mm2"`
	Proof  float64  `json:"proof_mpa"`
	Source []string `json:"source"`
}

// newtonMetresInPoundFoot is exact: pound force × foot.
const newtonMetresInPoundFoot = 1.3558179483314004

func torqueCommand(_ context.Context, args []string, stdout, stderr io.Writer) int {
	set := options("torque")
	opts := kitOptions{FlagSet: set, json: set.Bool("json", false, "")}
	thread, grade := set.String("thread", "", ""), set.String("grade", "", "")
	lever, grip := set.String("lever", "", ""), set.String("grip", "", "")
	k, percent := set.Float64("k", 0, ""), set.Float64("percent-proof", fastener.UsualPercent, "")
	states := map[string]*bool{}
	for _, f := range fastener.Frictions() {
		states[f.Name] = set.Bool(f.Name, false, "")
	}
	words, ok := opts.read(args, stderr)
	switch {
	case !ok:
		return askedWrong
	case len(words) > 0:
		return opts.wrong(stderr, "%q is not expected; thread and grade stand behind -thread and -grade", words[0])
	case *thread == "" || *grade == "":
		return opts.wrong(stderr, "say the thread and the grade")
	}

	ask := fastener.Ask{Friction: fastener.Dry, Percent: *percent}
	said := 0
	for _, f := range fastener.Frictions() {
		if *states[f.Name] {
			ask.Friction, said = f, said+1
		}
	}
	var err error
	if given(opts, "k") {
		if ask.Friction, err = fastener.Own(*k); err != nil {
			return opts.wrong(stderr, "%v", err)
		}
		said++
	}
	if said > 1 {
		return opts.wrong(stderr, "say one of -dry, -oiled, -zinc and -k")
	}
	if ask.Bolt, err = data.Handbook().ParseBolt(*thread + " " + gradeWord(*thread) + *grade); err != nil {
		return opts.wrong(stderr, "%v", err)
	}
	answer, err := fastener.Tighten(ask)
	if err != nil {
		return opts.wrong(stderr, "%v", err)
	}
	lengths := map[string]fieldkit.Length{}
	for name, text := range map[string]string{"lever": *lever, "grip": *grip} {
		if text != "" {
			if lengths[name], err = fieldkit.ParseLength(text, fieldkit.Metric); err != nil {
				return opts.wrong(stderr, "-%s: %v", name, err)
			}
		}
	}

	if *opts.json {
		printJSON(stdout, torqueAsJSON(answer))
		return done
	}
	printTorque(stdout, ask, answer)
	if l := lengths["lever"]; l > 0 {
		n := fastener.Pull(answer.Torque, l)
		fmt.Fprintf(stdout, "without a torque wrench: pull %.0f kg (%.0f lb, %.0f N) square to a lever of %s; by feel expect to be within %d %% at best\n",
			fastener.KilogramForce(n), fastener.PoundForce(n), n, l.Both(fieldkit.Metric), fastener.FeelPercent)
	}
	if l := lengths["grip"]; l > 0 {
		turn, ok := ask.TurnFromSnug(l)
		if !ok {
			fmt.Fprintf(stdout, "by turning: there is no telling for a grip of %s; it takes one to twelve diameters\n", l.Both(fieldkit.Metric))
			return done
		}
		fmt.Fprintf(stdout, "by turning: %.0f° from snug, %.0f° to %.0f° by how stiff the parts are; not with a gasket\n", turn.Degrees, turn.Low, turn.High)
	}
	return done
}

// gradeWord keeps a grade from being read as a part of an inch thread.
func gradeWord(thread string) string {
	if strings.HasPrefix(strings.ToUpper(strings.TrimSpace(thread)), "M") {
		return ""
	}
	return "grade "
}

func torqueAsJSON(a fastener.Answer) torqueAnswer {
	nm := func(t fieldkit.Torque) float64 { return float64(t) / float64(fieldkit.NewtonMetre) }
	tidy := func(x float64, digits int) float64 {
		p := math.Pow10(digits)
		return math.Round(x*p) / p
	}
	return torqueAnswer{
		NM: tidy(nm(a.Torque), 3), LbFt: tidy(nm(a.Torque)/newtonMetresInPoundFoot, 3), Low: tidy(nm(a.Low), 3), High: tidy(nm(a.High), 3),
		N: tidy(a.PreloadN, 1), K: a.K, Area: tidy(a.AreaMM2, 3), Proof: a.ProofMPa, Source: a.Sources,
	}
}

func printTorque(w io.Writer, ask fastener.Ask, a fastener.Answer) {
	fmt.Fprintf(w, "%s, %s: %s\n", ask.Bolt, ask.Friction.Says, a.Torque.Both(fieldkit.Metric))
	fmt.Fprintf(w, "range: %s to %s by how slippery it is (K %.2f, found from %.2f to %.2f)\n",
		a.Low.Both(fieldkit.Metric), a.High.Both(fieldkit.Metric), a.K, ask.Friction.Low, ask.Friction.High)
	fmt.Fprintf(w, "preload: %.1f kN (%.0f lb), %g %% of the proof load of %.1f kN (%.1f mm² at %g MPa)\n",
		a.PreloadN/1000, fastener.PoundForce(a.PreloadN), ask.Percent, a.ProofMPa*a.AreaMM2/1000, a.AreaMM2, a.ProofMPa)
	if a.Stretches {
		fmt.Fprintln(w, "careful: if it is as slippery as it may be, this torque stretches the bolt beyond its proof load")
	}
	fmt.Fprintln(w, "computed; the maker's figure goes first. Not for wheel nuts, gaskets or bolts that are used once.")
	for _, s := range a.Sources {
		fmt.Fprintln(w, "source: "+s)
	}
}

// given reports whether an option was written.
func given(o kitOptions, name string) (yes bool) {
	o.Visit(func(f *flag.Flag) { yes = yes || f.Name == name })
	return yes
}
