"""Routes that take a phone into the kitchen's network of pages."""

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, Response

from service.addresses import address, names_on
from service.api.services import Services, ServicesDep
from service.errors import Fault, NotFoundError
from service.tls import AUTHORITY_FILE
from web.enrol.pages import render_enrol
from web.language import _

router = APIRouter(include_in_schema=False)

_AUTHORITY = "/enrol/authority.crt"
_CERTIFICATE = "application/x-x509-ca-cert"


@router.get("/enrol")
def enrol(request: Request, services: ServicesDep) -> HTMLResponse:
    """How a phone is enrolled."""
    name, tls_port = names_on(services.settings)[0], services.settings.tls_port
    plain = address("http", name, _plain_port(request, services))
    secure = address("https", name, tls_port) if tls_port else None
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
                _("this kitchen has made none yet"),
                _("Set %(setting)s to 8443 and start again", setting="PREPWRIGHT_TLS_PORT"),
            )
        )
    return Response(path.read_bytes(), media_type=_CERTIFICATE)


def _plain_port(request: Request, services: Services) -> int:
    """The port without HTTPS; where any free one was asked for, that of this request."""
    return services.settings.port or request.url.port or 80
