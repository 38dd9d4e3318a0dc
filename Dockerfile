# syntax=docker/dockerfile:1

FROM rust:1.95-slim-bookworm AS build
# A C compiler, for the allocator and zstd.
RUN apt-get update \
    && apt-get install --yes --no-install-recommends gcc libc6-dev \
    && rm -rf /var/lib/apt/lists/*
WORKDIR /source
COPY . .
RUN cargo build --release --locked --package wainwright-service --bin wainwright

FROM debian:bookworm-slim
COPY --from=build /source/target/release/wainwright /usr/local/bin/wainwright
# Nobody: it reads nothing, writes nothing and owns nothing.
USER 65534:65534
ENV WAINWRIGHT_LISTEN=0.0.0.0:8080 \
    WAINWRIGHT_LOG_FORMAT=json
EXPOSE 8080
STOPSIGNAL SIGTERM
ENTRYPOINT ["wainwright"]
CMD ["serve"]
