//! How many requests one client may make.

use std::collections::BTreeMap;
use std::net::{IpAddr, Ipv6Addr};
use std::sync::{Mutex, PoisonError};
use std::time::{Duration, Instant};

use actix_web::http::header::{self, HeaderMap, HeaderName, HeaderValue};

use crate::problem::{Problem, QUOTA_EXCEEDED};

/// The policy's name in the header fields.
const POLICY: &str = "calls";
/// So many clients are told apart; beyond, strangers share one allowance until some are forgotten.
const MOST_CLIENTS: usize = 65_536;
/// Everyone's share when there are too many clients.
const STRANGERS: IpAddr = IpAddr::V6(Ipv6Addr::UNSPECIFIED);

const RATE_LIMIT: HeaderName = HeaderName::from_static("ratelimit");
const RATE_LIMIT_POLICY: HeaderName = HeaderName::from_static("ratelimit-policy");

/// What each client has used up, as a generic cell rate (ITU-T I.371; from memory): a client may use its whole
/// quota at once, and gets it back evenly over the window.
#[derive(Debug)]
pub struct RateLimit {
    quota: u32,
    window: Duration,
    policy: HeaderValue,
    /// When each client will have its whole quota again. Past that it is as good as a stranger.
    clients: Mutex<Clients>,
}

#[derive(Debug, Default)]
struct Clients {
    restored: BTreeMap<IpAddr, Instant>,
    /// When the stale are dropped next.
    sweep_due: Option<Instant>,
}

/// What is left to a client after a request.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Allowance {
    /// May this request be answered?
    pub allowed: bool,
    /// So many more may follow at once.
    pub remaining: u32,
    /// Time until there is more [s]: until the next request may be made where none is left, else until the
    /// whole quota is restored.
    pub reset_s: u64,
}

impl RateLimit {
    /// `quota` requests in each `window`, at least one.
    pub fn new(quota: u32, window: Duration) -> Self {
        let window = window.max(Duration::from_millis(1));
        let quota = quota.max(1);
        let policy = format!("\"{POLICY}\";q={quota};w={}", ceil_s(window));
        Self {
            quota,
            window,
            // ASCII, no control characters.
            policy: HeaderValue::try_from(policy).unwrap_or(HeaderValue::from_static("")),
            clients: Mutex::default(),
        }
    }

    /// Counts a request of `client` at `now`.
    pub fn count(&self, client: IpAddr, now: Instant) -> Allowance {
        let interval = self.window / self.quota;
        let mut clients = self.clients.lock().unwrap_or_else(PoisonError::into_inner);
        clients.sweep(now, self.window);
        let key = clients.key(network(client));
        let restored = clients.restored.get(&key).copied().unwrap_or(now).max(now) + interval;
        let owed = restored - now;
        let allowed = owed <= interval * self.quota;
        if allowed {
            clients.restored.insert(key, restored);
            let remaining = ((interval * self.quota - owed).as_nanos() / interval.as_nanos().max(1)) as u32;
            Allowance { allowed, remaining, reset_s: ceil_s(owed) }
        } else {
            Allowance { allowed, remaining: 0, reset_s: ceil_s(owed - interval * self.quota) }
        }
    }

    /// The fields that tell a client where it stands.
    pub fn write(&self, allowance: Allowance, headers: &mut HeaderMap) {
        headers.insert(RATE_LIMIT_POLICY, self.policy.clone());
        let left = format!("\"{POLICY}\";r={};t={}", allowance.remaining, allowance.reset_s);
        if let Ok(left) = HeaderValue::try_from(left) {
            headers.insert(RATE_LIMIT, left);
        }
    }

    /// The refusal of a request that is one too many.
    pub fn refuse(&self, allowance: Allowance) -> Problem {
        let detail = format!(
            "One client may make {} requests in {} s. The next may be made in {} s.",
            self.quota,
            ceil_s(self.window),
            allowance.reset_s
        );
        Problem::new(&QUOTA_EXCEEDED, detail)
            .with("violated-policies", vec![POLICY])
            .header(header::RETRY_AFTER, HeaderValue::from(allowance.reset_s))
    }
}

impl Clients {
    /// Drops the stale, a few times in each window: often enough to bound the memory, seldom enough to cost
    /// nothing.
    fn sweep(&mut self, now: Instant, window: Duration) {
        if self.sweep_due.is_none_or(|due| due <= now) {
            self.restored.retain(|_, restored| *restored > now);
            self.sweep_due = Some(now + (window / 4).max(Duration::from_secs(1)));
        }
    }

    /// The client, or the strangers' share where too many clients are known already.
    fn key(&self, client: IpAddr) -> IpAddr {
        if self.restored.len() >= MOST_CLIENTS && !self.restored.contains_key(&client) {
            STRANGERS
        } else {
            client
        }
    }
}

/// One client has a whole IPv6 network of 64 bits to take addresses from.
fn network(address: IpAddr) -> IpAddr {
    match address {
        IpAddr::V6(v6) => match v6.to_ipv4_mapped() {
            Some(v4) => IpAddr::V4(v4),
            None => IpAddr::V6(Ipv6Addr::from_bits(v6.to_bits() >> 64 << 64)),
        },
        v4 => v4,
    }
}

fn ceil_s(duration: Duration) -> u64 {
    duration.as_secs() + u64::from(duration.subsec_nanos() > 0)
}

#[cfg(test)]
mod tests {
    use super::*;

    const A: IpAddr = IpAddr::V4(std::net::Ipv4Addr::new(192, 0, 2, 1));

    #[test]
    fn the_whole_quota_may_be_used_at_once_and_comes_back_evenly() {
        let limit = RateLimit::new(3, Duration::from_secs(6));
        let start = Instant::now();
        let at = |s: f64| start + Duration::from_secs_f64(s);
        let remaining: Vec<u32> = (0..3).map(|_| limit.count(A, start).remaining).collect();
        assert_eq!(remaining, [2, 1, 0]);
        assert_eq!(limit.count(A, start), Allowance { allowed: false, remaining: 0, reset_s: 2 });
        assert!(!limit.count(A, at(1.9)).allowed);
        assert!(limit.count(A, at(2.0)).allowed);
        assert!(!limit.count(A, at(2.0)).allowed);
        assert_eq!(limit.count(A, at(60.0)), Allowance { allowed: true, remaining: 2, reset_s: 2 });
    }

    #[test]
    fn clients_do_not_use_up_each_others_quota() {
        let limit = RateLimit::new(1, Duration::from_secs(60));
        let now = Instant::now();
        assert!(limit.count(A, now).allowed);
        assert!(limit.count("192.0.2.2".parse().unwrap(), now).allowed);
    }

    #[test]
    fn one_network_of_ipv6_is_one_client() {
        let limit = RateLimit::new(1, Duration::from_secs(60));
        let now = Instant::now();
        assert!(limit.count("2001:db8::1".parse().unwrap(), now).allowed);
        assert!(!limit.count("2001:db8::2".parse().unwrap(), now).allowed);
        assert!(limit.count("2001:db8:0:1::1".parse().unwrap(), now).allowed);
    }

    #[test]
    fn stale_clients_are_dropped_and_memory_is_bounded() {
        let limit = RateLimit::new(1, Duration::from_secs(1));
        let start = Instant::now();
        let client = |n: u32| IpAddr::V4(std::net::Ipv4Addr::from_bits(n));
        for n in 0..100_000 {
            limit.count(client(n), start);
        }
        let known = || limit.clients.lock().unwrap().restored.len();
        assert!(known() <= MOST_CLIENTS + 1, "{}", known());
        assert!(!limit.count(client(200_000), start).allowed, "strangers share what is left");
        let later = start + Duration::from_secs(2);
        assert!(limit.count(client(200_000), later).allowed);
        assert_eq!(known(), 1, "{}", known());
    }
}
