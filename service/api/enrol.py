"""Routes that take a phone into the kitchen's network of pages."""

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, Response

from service.addresses import names_on
from service.api.services import Services, ServicesDep
from service.errors import Fault, NotFoundError
from service.tls import AUTHORITY_FILE
from web.enrol.pages import render_enrol

router = APIRouter(include_in_schema=False)

_AUTHORITY = "/enrol/authority.crt"
_CERTIFICATE = "application/x-x509-ca-cert"


@router.get("/enrol")
def enrol(request: Request, services: ServicesDep) -> HTMLResponse:
    """How a phone is enrolled."""
    plain = _address("http", services, _plain_port(request, services))
    secure = None
    if services.settings.tls_port:
        secure = _address("https", services, services.settings.tls_port)
    return HTMLResponse(
        render_enrol(
            here=f"{plain}enrol",
            secure=secure,
            authority=_AUTHORITY if secure else None,
            to="/",
        )
    )


@router.get(_AUTHORITY)
def authority(services: ServicesDep) -> Response:
    """The certificate that phones are to trust: of the authority, never its key."""
    path = services.settings.tls_dir / AUTHORITY_FILE
    if not path.exists():
        raise NotFoundError(
            Fault(
                "certificate",
                AUTHORITY_FILE,
                "this kitchen has made none yet",
                "Set PREPWRIGHT_TLS_PORT to 8443 and start again",
            )
        )
    return Response(path.read_bytes(), media_type=_CERTIFICATE)


def _address(scheme: str, services: Services, port: int) -> str:
    name = names_on(services.settings)[0]
    host = f"[{name}]" if ":" in name else name
    return f"{scheme}://{host}:{port}/"


def _plain_port(request: Request, services: Services) -> int:
    """The port without HTTPS; where any free one was asked for, that of this request."""
    return services.settings.port or request.url.port or 80
