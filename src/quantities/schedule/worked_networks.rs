//! Networks that books and courses print, with the times and floats that
//! they, or the two passes done by other means, give.

use super::calendar::Calendar;
use super::network::{Activity, Lag, Link, Span, schedule};

/// A network: each activity with its length and those that it comes after,
/// by their names, a lag behind a plus: `lay+1`.
struct Network {
    activities: &'static [(&'static str, i64, &'static [&'static str])],
    length: i64,
    floats: &'static [i64],
}

/// The networks that are printed by events, each activity between two.
fn by_events(arrows: &[(u32, u32, i64)]) -> Vec<Activity> {
    let activity = |(from, _, length): &(u32, u32, i64)| {
        let before = arrows
            .iter()
            .enumerate()
            .filter(|(_, (_, to, _))| to == from);
        Activity {
            span: Some(Span::Parted(*length * 60)),
            hands: 1,
            links: before.map(|(index, _)| link(index, 0)).collect(),
        }
    };
    arrows.iter().map(activity).collect()
}

fn link(from: usize, lag: i64) -> Link {
    Link {
        from,
        lag: Lag::Minutes(lag * 60),
    }
}

fn named(network: &Network) -> Vec<Activity> {
    let index = |name: &str| {
        let mut names = network.activities.iter();
        names
            .position(|(own, ..)| *own == name)
            .expect("it is named")
    };
    let activities = network.activities.iter();
    activities
        .map(|(_, length, after)| Activity {
            span: Some(Span::Parted(*length * 60)),
            hands: 1,
            links: after
                .iter()
                .map(|own| {
                    let (name, lag) = own.split_once('+').unwrap_or((own, "0"));
                    link(index(name), lag.parse().expect("a number"))
                })
                .collect(),
        })
        .collect()
}

/// The length and the floats of a network with hands enough, at work day and
/// night.
fn passed(activities: &[Activity]) -> (i64, Vec<i64>) {
    let crew = activities.len() as u32;
    let slots = schedule(activities, crew, &Calendar::without_end());
    let slots: Vec<_> = slots
        .into_iter()
        .map(|slot| slot.expect("it has a place"))
        .collect();
    let end = slots
        .iter()
        .map(|slot| slot.end)
        .max()
        .expect("there are some");
    (end / 60, slots.iter().map(|slot| slot.float / 60).collect())
}

#[test]
fn printed_networks_have_their_lengths_and_floats() {
    for network in [
        // Hendrickson, *Project Management for Construction*, table 10-2, as
        // quoted; floats computed.
        Network {
            activities: &[
                ("A", 4, &[]),
                ("B", 3, &[]),
                ("C", 8, &["A"]),
                ("D", 7, &["A"]),
                ("E", 9, &["B", "C"]),
                ("F", 12, &["B", "C"]),
                ("G", 2, &["D", "E"]),
                ("H", 5, &["D", "E"]),
                ("I", 6, &["F", "G"]),
            ],
            length: 30,
            floats: &[0, 9, 0, 11, 1, 0, 1, 4, 0],
        },
        // A question bank's network with two critical paths; computed.
        Network {
            activities: &[
                ("A", 7, &[]),
                ("B", 5, &[]),
                ("C", 3, &["A"]),
                ("D", 4, &["B"]),
                ("E", 4, &["C"]),
                ("F", 4, &["C", "D"]),
                ("G", 3, &["E", "F"]),
                ("H", 1, &["G"]),
            ],
            length: 18,
            floats: &[0, 1, 0, 1, 0, 0, 0, 0],
        },
        // A patio with lags as NAVEDTRA 14233, chapter 2, has them; computed.
        Network {
            activities: &[
                ("dig", 2, &[]),
                ("drain", 1, &["dig"]),
                ("base", 2, &["drain"]),
                ("slab", 1, &["base"]),
                ("edge", 1, &["base"]),
                ("lay", 3, &["slab+7"]),
                ("point", 1, &["lay+1"]),
                ("open", 0, &["point+3", "edge"]),
            ],
            length: 21,
            floats: &[0, 0, 0, 0, 15, 0, 0, 0],
        },
    ] {
        let (length, floats) = passed(&named(&network));
        assert_eq!(length, network.length);
        assert_eq!(floats, network.floats);
    }
}

#[test]
fn networks_printed_by_events_have_their_lengths_and_slacks() {
    for (arrows, length, slack) in [
        // B. Taylor, *Introduction to Management Science*, chapter 8,
        // solutions as read; the second has a dummy.
        (
            vec![
                (1, 2, 7),
                (1, 3, 10),
                (2, 4, 6),
                (3, 4, 5),
                (3, 5, 4),
                (4, 5, 3),
                (5, 6, 2),
            ],
            20,
            vec![2, 0, 2, 0, 4, 0, 0],
        ),
        (
            vec![
                (1, 2, 8),
                (1, 3, 10),
                (1, 4, 9),
                (2, 5, 6),
                (2, 6, 4),
                (3, 5, 5),
                (4, 5, 0),
                (4, 7, 7),
                (5, 7, 12),
                (5, 8, 15),
                (6, 9, 18),
                (7, 8, 4),
                (8, 9, 7),
            ],
            38,
            vec![1, 0, 6, 1, 8, 0, 6, 11, 0, 1, 8, 0, 0],
        ),
        // critpath, vignette of 2024, as read.
        (
            vec![
                (1, 2, 3),
                (1, 3, 2),
                (1, 4, 5),
                (2, 4, 1),
                (3, 4, 1),
                (4, 5, 3),
            ],
            8,
            vec![1, 2, 0, 1, 2, 0],
        ),
        // An exam's network; computed.
        (
            vec![
                (1, 2, 2),
                (1, 3, 7),
                (1, 4, 8),
                (2, 5, 3),
                (3, 5, 6),
                (3, 6, 10),
                (3, 7, 4),
                (4, 6, 6),
                (5, 7, 2),
                (6, 8, 5),
                (7, 8, 6),
            ],
            22,
            vec![9, 0, 3, 9, 1, 0, 5, 3, 1, 0, 1],
        ),
        // Homework whose answer prints 15 and 18 as two critical paths, and
        // floats of 4 and 2 where the passes give 7 and 5.
        (
            vec![
                (1, 2, 3),
                (2, 3, 4),
                (3, 4, 4),
                (3, 7, 4),
                (4, 5, 2),
                (4, 7, 2),
                (5, 6, 3),
                (6, 7, 2),
            ],
            18,
            vec![0, 0, 0, 7, 0, 5, 0, 0],
        ),
    ] {
        let (found, floats) = passed(&by_events(&arrows));
        assert_eq!(found, length);
        assert_eq!(floats, slack);
    }
}

/// critpath, vignette of 2024, as read: three-point times whose means come to
/// 31, with slack of 2, 1.5, 2 and 1.5 off the critical path.
#[test]
fn means_of_three_point_times_make_a_path() {
    let times = [
        (1, 2, [3, 5, 7]),
        (2, 3, [5, 7, 9]),
        (3, 4, [5, 5, 8]),
        (3, 5, [1, 6, 8]),
        (3, 6, [6, 8, 10]),
        (4, 7, [2, 6, 7]),
        (5, 7, [5, 6, 7]),
        (6, 7, [3, 5, 7]),
        (7, 8, [4, 6, 8]),
    ];
    // In minutes a sixth of a day is exact.
    let mean = |[least, likely, most]: [i64; 3]| (least + 4 * likely + most) * 10;
    let plain: Vec<(u32, u32, i64)> = times
        .iter()
        .map(|(a, b, own)| (*a, *b, mean(*own)))
        .collect();
    let mut activities = by_events(&plain);
    for (activity, (_, _, minutes)) in activities.iter_mut().zip(&plain) {
        activity.span = Some(Span::Parted(*minutes));
    }
    let slots = schedule(&activities, 9, &Calendar::without_end());
    let slots: Vec<_> = slots.into_iter().flatten().collect();
    assert_eq!(slots.iter().map(|slot| slot.end).max(), Some(31 * 60));
    let floats: Vec<i64> = slots.iter().map(|slot| slot.float).collect();
    assert_eq!(floats, [0, 0, 120, 90, 0, 120, 90, 0, 0]);
}

/// ProjectManagement, help of 2024, as read: fractions and an open end, 4.5
/// days; floats computed.
#[test]
fn fractions_and_an_open_end() {
    let tenths = |tenths: i64| Some(Span::Parted(tenths * 6));
    let activity = |tenth: i64, after: &[usize]| Activity {
        span: tenths(tenth),
        hands: 1,
        links: after.iter().map(|from| link(*from, 0)).collect(),
    };
    let activities = [
        activity(30, &[]),
        activity(20, &[]),
        activity(10, &[0, 3]),
        activity(15, &[1]),
        activity(42, &[]),
    ];
    let slots = schedule(&activities, 5, &Calendar::without_end());
    let slots: Vec<_> = slots.into_iter().flatten().collect();
    let starts: Vec<i64> = slots.iter().map(|slot| slot.start / 6).collect();
    assert_eq!(starts, [0, 0, 35, 20, 0]);
    assert_eq!(slots.iter().map(|slot| slot.end / 6).max(), Some(45));
    let floats: Vec<i64> = slots.iter().map(|slot| slot.float / 6).collect();
    assert_eq!(floats, [5, 0, 0, 0, 3]);
}

/// The worked week of NAVEDTRA 14233, figure 2-13: a task that ends on day 10
/// and is followed on day 11 with no lag has a day of free float.
#[test]
fn what_is_followed_later_has_float() {
    let activity = |days: i64, after: &[usize]| Activity {
        span: Some(Span::Parted(days * 60)),
        hands: 1,
        links: after.iter().map(|from| link(*from, 0)).collect(),
    };
    let activities = [activity(10, &[]), activity(11, &[]), activity(1, &[0, 1])];
    let (length, floats) = passed(&activities);
    assert_eq!((length, floats), (12, vec![1, 0, 0]));
}

/// A web course's network with links from start to start; floats computed.
/// What may begin when another begins comes after whatever that one comes
/// after: so all is as printed but the float of G, which J's start holds to 9
/// and its followers alone to 11.
#[test]
fn a_network_with_links_from_start_to_start() {
    let network = Network {
        activities: &[
            ("A", 2, &[]),
            ("B", 10, &[]),
            ("C", 13, &["A"]),
            ("D", 12, &["A"]),
            ("E", 12, &["B"]),
            ("F", 7, &["B"]),
            ("G", 10, &["D"]),
            ("H", 16, &["D"]),
            ("I", 6, &["F"]),
            ("J", 12, &["C", "D"]),
            ("K", 5, &["F"]),
            ("L", 8, &["E", "I", "K"]),
            ("M", 5, &["H"]),
            ("N", 3, &["G", "J", "L", "M"]),
        ],
        length: 38,
        floats: &[0, 4, 8, 0, 5, 4, 11, 0, 4, 8, 5, 4, 0, 0],
    };
    let (length, floats) = passed(&named(&network));
    assert_eq!(
        (length, floats.as_slice()),
        (network.length, network.floats)
    );
}
