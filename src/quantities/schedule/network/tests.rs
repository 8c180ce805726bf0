//! What must hold of any schedule.

use super::*;
use proptest::prelude::*;

fn week() -> Calendar {
    Calendar::new(8 * 60, 16 * 60 + 30, 30).on([true, true, true, true, true, false, false])
}

/// Tasks that come after some of those before them.
fn activities() -> impl Strategy<Value = Vec<Activity>> {
    let span = prop_oneof![
        6 => (0i64..2_000).prop_map(Span::Parted),
        1 => (1i64..500).prop_map(Span::Whole),
        1 => (0i64..9_000).prop_map(Span::ByTheClock),
    ];
    let lag = prop_oneof![
        4 => Just(Lag::Minutes(0)),
        1 => (0i64..5_000).prop_map(Lag::Minutes),
        1 => Just(Lag::Overnight),
    ];
    let links = prop::collection::vec((any::<prop::sample::Index>(), lag), 0..3);
    let one = (span, 1u32..=3, links);
    prop::collection::vec(one, 1..25).prop_map(|all| {
        let tasks = all.into_iter().enumerate();
        tasks
            .map(|(index, (span, hands, links))| Activity {
                span: Some(span),
                hands: if matches!(span, Span::ByTheClock(_)) {
                    0
                } else {
                    hands
                },
                links: match index {
                    0 => Vec::new(),
                    _ => links
                        .into_iter()
                        .map(|(from, lag)| Link {
                            from: from.index(index),
                            lag,
                        })
                        .collect(),
                },
            })
            .collect()
    })
}

proptest! {
    /// The crew is never exceeded, nothing begins before what it follows,
    /// no task can begin earlier alone, and what has no float holds the
    /// end.
    #[test]
    fn no_task_can_begin_earlier_alone(activities in activities(), crew in 3u32..5) {
        let week = week();
        let slots = schedule(&activities, crew, &week);
        let network = Network::of(&activities, crew, &week);
        let times: Vec<Times> =
            slots.iter().map(|slot| slot.map(|slot| (slot.start, slot.end))).collect();
        let end = times.iter().flatten().map(|(_, end)| *end).max();
        for (index, (own, slot)) in activities.iter().zip(&slots).enumerate() {
            let Some(slot) = slot else {
                // Ten working weeks are enough for all of these.
                prop_assert!(matches!(own.span, Some(Span::Whole(481..))) || own.links.iter().any(|link| slots[link.from].is_none()));
                continue;
            };
            let mut free = Free::of(crew);
            for (other, (task, slot)) in activities.iter().zip(&slots).enumerate() {
                if let Some(slot) = slot.filter(|_| other != index) {
                    prop_assert!(free.lacks(slot.start, slot.end, task.hands).is_none());
                    free.take(slot.start, slot.end, task.hands);
                }
            }
            let held = network.held(own, &times).zip(own.span);
            prop_assert!(held.is_some_and(|((from, _), _)| slot.start >= from));
            let alone = held.and_then(|((from, reason), span)| {
                network.fitted(from, (own, span), reason, &free)
            });
            prop_assert_eq!(alone.map(|own| own.start), Some(slot.start));
            prop_assert!(slot.float >= 0);
        }
        let critical = slots.iter().flatten().find(|slot| Some(slot.end) == end);
        prop_assert!(critical.is_none_or(|slot| slot.float == 0));
    }
}

#[test]
fn a_circle_is_found_and_nothing_on_it_or_after_it_has_a_place() {
    let task = |links: &[usize]| Activity {
        span: Some(Span::Parted(60)),
        hands: 1,
        links: links
            .iter()
            .map(|from| Link {
                from: *from,
                lag: Lag::Minutes(0),
            })
            .collect(),
    };
    let all = [
        task(&[]),
        task(&[0, 3]),
        task(&[1]),
        task(&[2]),
        task(&[3]),
        task(&[0]),
    ];
    assert_eq!(circle(&all), [1, 2, 3]);
    assert_eq!(circle(&all[..1]), [] as [usize; 0]);
    let placed = schedule(&all, 1, &week());
    let placed: Vec<bool> = placed.iter().map(Option::is_some).collect();
    assert_eq!(placed, [true, false, false, false, false, true]);
}

#[test]
fn a_start_keeps_what_binds_it() {
    let task = |span, links: Vec<Link>| Activity {
        span: Some(span),
        hands: 1,
        links,
    };
    let after = |from, lag| vec![Link { from, lag }];
    let hour = Span::Parted(60);
    let all = [
        task(hour, Vec::new()),
        task(hour, after(0, Lag::Minutes(0))),
        task(hour, after(1, Lag::Minutes(24 * 60))),
        task(Span::Parted(300), Vec::new()),
        task(Span::Whole(480), after(3, Lag::Minutes(0))),
        task(hour, after(4, Lag::Overnight)),
    ];
    let slots = schedule(&all, 1, &week());
    let reasons: Vec<Reason> = slots.iter().flatten().map(|slot| slot.reason).collect();
    assert_eq!(reasons.len(), all.len());
    assert!(matches!(
        reasons[2],
        Reason::After(1, Lag::Minutes(1440)) | Reason::Crew(_)
    ));
    assert!(reasons.contains(&Reason::Start));
    assert!(
        reasons
            .iter()
            .any(|reason| matches!(reason, Reason::Crew(_) | Reason::Day))
    );
    // One pair of hands does what was ready first; with two none waits for them.
    assert_eq!(reasons[5], Reason::Crew(2));
    let slots = schedule(&all, 2, &week());
    let last = slots.last().copied().flatten();
    let last = last.map(|slot| slot.reason);
    assert_eq!(last, Some(Reason::After(4, Lag::Overnight)));
}
