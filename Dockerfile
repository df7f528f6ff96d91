# One image for the web side, the worker and the dispatcher of the shared form.
FROM python:3.11-slim-bookworm

# What the page printer needs: text layout, and the subsetting that halves its time.
RUN apt-get update \
    && apt-get install --yes --no-install-recommends libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0 \
    && rm -rf /var/lib/apt/lists/*

WORKDIR /srv/batchbee
COPY pyproject.toml README.md LICENSE ./
COPY service ./service
COPY workers ./workers
RUN pip install --no-cache-dir ".[postgres]" \
    && useradd --system --uid 10001 --home-dir /var/lib/batchbee --create-home batchbee

USER batchbee
# Made here, so that a new volume belongs to the user.
RUN mkdir /var/lib/batchbee/data
ENV BATCHBEE_DATA=/var/lib/batchbee/data PYTHONUNBUFFERED=1 XDG_CACHE_HOME=/tmp
VOLUME /var/lib/batchbee/data
