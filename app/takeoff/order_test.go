package takeoff_test

import (
	"fmt"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"haunchbook.example/app/takeoff"
)

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

func TestLoads(t *testing.T) {
	for _, c := range []struct {
		order, step, truck string
		style              takeoff.Loads
		want               string
	}{
		{"11", "0.5", "11", takeoff.Balanced, "[11]"},
		{"11.5", "0.5", "10", takeoff.Balanced, "[6 5.5]"},
		{"11.5", "0.5", "10", takeoff.Full, "[10 1.5]"},
		{"26", "0.5", "10", takeoff.Balanced, "[9 8.5 8.5]"},
		{"26", "0.5", "10", takeoff.Full, "[10 10 6]"},
		{"20", "0.25", "10", takeoff.Balanced, "[10 10]"},
		{"11.1", "0.5", "10", takeoff.Balanced, "[6 5.5]"}, // rounded up to a step
		{"10", "3", "10", takeoff.Full, "[9 3]"},           // a truck takes three steps of 3
		{"0.25", "0.25", "10", takeoff.Balanced, "[0.25]"},
	} {
		got, err := takeoff.Order{Step: dec(c.step), Truck: dec(c.truck), Loads: c.style}.Split(dec(c.order))
		if err != nil || fmt.Sprint(got) != c.want {
			t.Errorf("%s by %s in %s, %s: %v %v, want %s", c.order, c.step, c.truck, c.style, got, err, c.want)
		}
	}
	for _, c := range [][3]string{{"0", "0.5", "10"}, {"-1", "0.5", "10"}, {"5", "0", "10"}, {"5", "-1", "10"}, {"5", "0.5", "0.4"}, {"1000000", "0.5", "10"}} {
		o := takeoff.Order{Step: dec(c[1]), Truck: dec(c[2])}
		if got, err := o.Split(dec(c[0])); err == nil {
			t.Errorf("%v: %v without an error", c, got)
		}
	}
}

func TestLoadsSumToTheOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		step := decimal.New(rapid.Int64Range(1, 100).Draw(t, "step"), -2)
		order := step.Mul(decimal.NewFromInt(rapid.Int64Range(1, 500).Draw(t, "units")))
		truck := step.Add(decimal.New(rapid.Int64Range(0, 1200).Draw(t, "truck"), -2))
		style := takeoff.Loads(rapid.IntRange(0, 1).Draw(t, "style"))
		loads, err := takeoff.Order{Step: step, Truck: truck, Loads: style}.Split(order)
		if err != nil {
			t.Fatal(err)
		}
		sum := decimal.Zero
		low, high := loads[0], loads[0]
		for _, l := range loads {
			sum = sum.Add(l)
			low, high = decimal.Min(low, l), decimal.Max(high, l)
			if !l.IsPositive() || l.GreaterThan(truck) || !l.Mod(step).IsZero() {
				t.Fatalf("load %s of step %s and truck %s", l, step, truck)
			}
		}
		if !sum.Equal(order) {
			t.Fatalf("the loads %v sum to %s, not %s", loads, sum, order)
		}
		if style == takeoff.Balanced && high.Sub(low).GreaterThan(step) {
			t.Fatalf("balanced loads %v differ by more than %s", loads, step)
		}
		// No fewer trucks would do.
		most := truck.Div(step).Floor().Mul(step)
		if most.Mul(decimal.NewFromInt(int64(len(loads) - 1))).GreaterThanOrEqual(order) {
			t.Fatalf("%d loads of at most %s for %s", len(loads), most, order)
		}
	})
}

// Loads are balanced, so that the last truck does not come with a rest.
func ExampleOrder_Split() {
	d := decimal.RequireFromString
	loads, err := takeoff.Order{Step: d("0.25"), Truck: d("10")}.Split(d("13.2"))
	fmt.Println(loads, err)
	// Output: [6.75 6.5] <nil>
}
