use std::sync::Arc;
#[path="../tests/bench/workload.rs"] mod workload;
use drylay::analysis::*;
fn main(){
  let n:usize=std::env::args().nth(1).unwrap().parse().unwrap();
  let k:usize=std::env::args().nth(2).unwrap().parse().unwrap();
  let text=workload::spec(n); let other=workload::edited(&text);
  let (a,b):(Arc<str>,Arc<str>)=(text.into(),other.into());
  let mut an=Analyser::new();
  let r=an.analyse("/s/x.patio",a.clone(),&NoFiles,"2027-01-12");
  eprintln!("findings {}",r.findings.len());
  let t=std::time::Instant::now();
  for i in 0..k { an.analyse("/s/x.patio",if i%2==0 {b.clone()} else {a.clone()},&NoFiles,"2027-01-12"); }
  eprintln!("{:?} per edit",t.elapsed()/k as u32);
}
