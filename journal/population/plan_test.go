package population

import "testing"

func plan(t testing.TB, founders int, celsius float64) Plan {
	t.Helper()
	return Plan{
		Profile: profile(t), Founders: Group{Unsexed: founders}, Celsius: celsius, Litres: 40, Capacity: -1, Months: 12, Goal: 150,
	}
}

func TestPlanPassesItsGoal(t *testing.T) {
	if testing.Short() {
		t.Skip("takes too long where the program is watched for races")
	}
	p := plan(t, 10, 23).Prospect(150)
	// Ten founders at even odds hold both sexes with 0.998047 (closed form); a share that is not known exactly takes a little.
	if p.BothSexes < 0.9975 || p.BothSexes > 0.9981 {
		t.Errorf("both sexes with %v", p.BothSexes)
	}
	if len(p.Ahead) != 12 || p.Ahead[11].Day != 360 || p.Goal.Count != 150 || p.Goal.Probability < 0.9 || len(p.Goal.Days) != 7 {
		t.Errorf("goal %+v after %d months", p.Goal, len(p.Ahead))
	}
	if len(p.Passes) != len(milestones) || p.Passes[0].Days[3] > p.Goal.Days[3] {
		t.Errorf("passes %+v, goal %+v", p.Passes, p.Goal)
	}
	if p.MayLeave < 1 {
		t.Errorf("nobody may leave a colony of %+v", p.Ahead[11])
	}
}

// Warmer water and more founders bring the goal nearer, within what keepers use; cold water puts it off for good.
func TestWarmthAndFoundersBringTheGoalNearer(t *testing.T) {
	if testing.Short() {
		t.Skip("takes too long where the program is watched for races")
	}
	day := func(p Plan) Day {
		goal := p.Prospect(90).Goal
		if len(goal.Days) == 0 {
			return 999
		}
		return goal.Days[3]
	}
	cool, mild, warm := day(plan(t, 10, 20)), day(plan(t, 10, 23)), day(plan(t, 10, 26))
	if !(warm < mild && mild < cool) {
		t.Errorf("goal on day %d at 26 °C, %d at 23 °C, %d at 20 °C", warm, mild, cool)
	}
	if few, many := day(plan(t, 6, 23)), day(plan(t, 20, 23)); many >= few {
		t.Errorf("goal on day %d with 6 founders, %d with 20", few, many)
	}
	if cold := day(plan(t, 10, 15.5)); cold != 999 {
		t.Errorf("goal on day %d at 15.5 °C", cold)
	}
}

func BenchmarkPlan(b *testing.B) {
	for b.Loop() {
		plan(b, 10, 23).Prospect(Particles)
	}
}
